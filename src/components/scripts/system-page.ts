import { partOfAnchor } from '../system/parts.ts';
import { keepChoices } from './choices.ts';
import { moveInGrids } from './grid-keys.ts';

leadOn();
addEventListener('hashchange', leadOn);
keepChoices();
moveInGrids();

/** Leads an address of before, when a system had one page, to the page its place is on now. */
function leadOn(): void {
  const anchor = decodeURIComponent(location.hash.slice(1));
  const part = partOfAnchor(anchor);
  if (part === '' || document.getElementById(anchor)) return;
  const { origin, pathname, search, hash } = location;
  const home = pathname.replace(/(\/systems\/[^/]+\/).*/, '$1');
  location.replace(new URL(`${home}${part}/${search}${hash}`, origin));
}
