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
  const { origin, pathname, search, hash } = location;
  // What a sheet once held beside its paper stands on the first page, or on one of its own.
  const isSheet = pathname.endsWith('/sheet/');
  if (anchor === '' || (part === '' && !isSheet) || document.getElementById(anchor)) return;
  const home = pathname.replace(/(\/systems\/[^/]+\/).*/, '$1');
  location.replace(new URL(`${home}${part === '' ? '' : `${part}/`}${search}${hash}`, origin));
}
