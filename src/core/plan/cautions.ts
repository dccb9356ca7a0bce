/** The usual cautions: on every plan and every sheet. They defer to the label, the safety sheet, local rules and licensed practice. */

const LABEL_HEAT = 'Heat is judged here by the label’s greatest depth alone. A warm room, a warm layer below, foam or wood around it all ask for less depth: never pour while the last pour is warm to the back of your hand.';
const SIMULATED_HEAT = 'Heat is simulated here from what the label says. It can only ask for less than the label allows, never for more. No complete published case of such a resin is known to us to hold it against: pour a test cup first, and never pour while the last pour is warm to the back of your hand.';

/** Common practice, no source. */
const CURING_BOX = 'Curing box: a closed crate with a heating mat and a thermostat, its sensor beside the piece, nothing in it that burns. Never a kitchen oven, never an open heater unattended. Nothing goes in while it is liquid or still warms itself.';

export function cautionsFor(heatSimulated: boolean, curingBox = false): readonly string[] {
  return [FIRST, heatSimulated ? SIMULATED_HEAT : LABEL_HEAT, ...(curingBox ? [CURING_BOX] : []), ...REST];
}

const FIRST = 'The label and safety sheet of the resin on your bench, local rules and licensed practice come before anything here.';
const REST: readonly string[] = [
  'Check which bottle your label calls A. Here part A is the resin and part B the hardener. Weigh by the mix card; a ratio printed by volume is not a ratio by weight.',
  'Resin and hardener can make you allergic for life. Wear nitrile gloves, long sleeves and eye protection; change gloves when splashed; no solvent on skin. Stop and see a doctor for a rash.',
  'Moving fresh air across the bench to outside. Nobody sleeps, eats or stays in the room while it cures; children and animals out, birds and fish tanks away.',
  'Cup hot or smoking: don’t touch it, leave the room, let air in from outside. Only warm and still liquid: pour it out thin on a metal tray outdoors. In the mold: leave it, move people and what burns away, don’t cover or wet it. Flames, or smoke you cannot leave outside: call the fire service.',
  'Never leave mixed resin standing deep in a cup. Let leftovers harden thin, outdoors and watched, then follow local waste rules; nothing down the drain.',
  'Sand wet. Wear a P100 or FFP3 mask; dust that is not fully cured is the worst for skin and lungs.',
  'No open flame near alcohol, silicone or paint. No mixing by anyone under 18; pregnant or asthmatic, ask a doctor first.',
  'The finished piece is not for food or drink, not heat-proof, and yellows in the sun: say so to whoever gets it.',
];
