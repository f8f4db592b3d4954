/** Place of the mode and of the instrument chosen on the page, in the author's order. */
export const chosenMode = (): number => placeOf('mode');
export const chosenInstrument = (): number => placeOf('instrument');

function placeOf(name: string): number {
  const inputs = [...document.querySelectorAll<HTMLInputElement>(`input[name="${name}"]`)];
  return Math.max(
    0,
    inputs.findIndex(({ checked }) => checked),
  );
}
