/** Puts the words of the missing address into the search box. */
const box = document.querySelector<HTMLInputElement>('#q');
const base = document.body.dataset['base'] ?? '/';
const words = decodeURIComponent(location.pathname.slice(base.length - 1))
  .replace(/\.[a-z]+$/, '')
  .split('/')
  .filter((part) => !['systems', 'devices', 'procedures', 'glossary', ''].includes(part))
  .join(' ')
  .replace(/[-_]+/g, ' ')
  .trim();
if (box && words) box.value = words;
