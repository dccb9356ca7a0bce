/** Why a plane's picture is not seen in the mold: its file is missing, or no picture can be made of it. */
import { useEffect, useState } from 'react';
import { canBeShown } from '../compose/ready-art.ts';
import { usePiece } from '../shared/piece.ts';

export const damagedWords = (name: string): string => `${name} can’t be shown: found no whole picture in it; expected one that opens elsewhere too. Save it again in the program that made it, or choose another.`;

export function useArtTrouble(path: string | undefined): string | null {
  const blob = usePiece((state) => (path === undefined ? undefined : state.files.get(path)));
  const [damaged, setDamaged] = useState<Blob | null>(null);
  useEffect(() => {
    if (path === undefined || !blob) return;
    let gone = false;
    void canBeShown(path, blob).then((can) => {
      if (!gone) setDamaged(can ? null : blob);
    });
    return () => {
      gone = true;
    };
  }, [path, blob]);
  if (path === undefined) return null;
  if (!blob) return `${path} is not among the files of this piece. Choose it here, or drop it on the plane.`;
  return damaged === blob ? damagedWords(path) : null;
}
