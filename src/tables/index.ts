/** Wiring as a spreadsheet's table, read into an entry and written from one: the door to this room. */
export { COLUMNS, type Column, formatLine, LINK, type LineProblem } from './columns.ts';
export { readCsv, separatorOf, writeCsv } from './csv.ts';
export { type Ground, readCables, type TableWiring } from './read-cables.ts';
export { withKey } from './splice.ts';
export { cablesYaml, linksYaml, writeCables } from './write-cables.ts';
