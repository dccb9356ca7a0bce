/** `1st`, `2nd`, `3rd`, `11th`. */
export function ordinal(n: number): string {
  const last = n % 100;
  const ending = last >= 11 && last <= 13 ? 'th' : (['th', 'st', 'nd', 'rd'][n % 10] ?? 'th');
  return `${n}${ending}`;
}
