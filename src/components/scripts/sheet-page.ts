import { keepChoices } from './choices.ts';
import { moveInGrids } from './grid-keys.ts';

keepChoices();
moveInGrids();
sliceForPrint();

/** Before printing, sets a tall drawing's pieces side by side; takes them away afterwards. */
function sliceForPrint(): void {
  const pan = document.querySelector<HTMLElement>('[data-slices]');
  const drawing = pan?.querySelector('svg');
  if (!pan || !drawing) return;
  const width = drawing.viewBox.baseVal.width;
  const slices = JSON.parse(pan.dataset.slices ?? '[]') as { y: number; height: number }[];
  const row = document.createElement('div');
  row.className = 'slices';
  addEventListener('beforeprint', () => {
    row.replaceChildren(
      ...slices.map(({ y, height }) => {
        const slice = drawing.cloneNode(true) as SVGSVGElement;
        slice.setAttribute('viewBox', `0 ${y} ${width} ${height}`);
        slice.removeAttribute('width');
        slice.removeAttribute('height');
        slice.setAttribute('aria-hidden', 'true');
        return slice;
      }),
    );
    pan.after(row);
  });
  addEventListener('afterprint', () => row.remove());
}
