// How far an axis reaches where bands lie beside the lines.

/**
 * The axis' limits with room for the bands, each way by no more than the lines span: a band without end would flatten them.
 *
 * @param bands in the axis' own units; ends that are not finite ask for no room
 */
export function roomForBands(
  [min, max]: readonly [min: number, max: number],
  bands: readonly { readonly low: readonly number[]; readonly high: readonly number[] }[],
): [min: number, max: number] {
  const span = max - min;
  const ends = bands.flatMap(({ low, high }) => [...low, ...high]).filter(Number.isFinite);
  const lowest = ends.reduce((least, end) => Math.min(least, end), min);
  const highest = ends.reduce((most, end) => Math.max(most, end), max);
  return [Math.max(lowest, min - span), Math.min(highest, max + span)];
}
