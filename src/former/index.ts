/** What entries were called before, and what addresses with those names lead to: the door to this room. */
export { takeOverKept } from './kept.ts';
export { currentName, currentPath, type FormerNames, formerNamesOf, formerPaths } from './names.ts';
