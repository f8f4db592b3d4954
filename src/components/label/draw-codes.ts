import { qrOf } from '../../publish/qr.ts';

/**
 * Draws the codes of labels that were built without knowing where they would be served: the
 * address is the one they are read at.
 */
for (const code of document.querySelectorAll<SVGSVGElement>('.label-code[data-path]')) {
  const address = new URL(code.dataset.path!, location.href).href;
  const { size, path } = qrOf(address);
  code.setAttribute('viewBox', `0 0 ${size} ${size}`);
  const dark = document.createElementNS('http://www.w3.org/2000/svg', 'path');
  dark.setAttribute('d', path);
  code.replaceChildren(dark);
  const said = code.closest('.cupboard-label')?.querySelector('.label-address');
  if (said) said.textContent = address;
}
