const STEPS: Readonly<Record<string, readonly [down: number, across: number]>> = {
  ArrowUp: [-1, 0],
  ArrowDown: [1, 0],
  ArrowLeft: [0, -1],
  ArrowRight: [0, 1],
};

/** Lets arrow keys move from cell to cell in tables of readings; Tab enters at one cell. */
export function moveInGrids(): void {
  for (const table of document.querySelectorAll<HTMLTableElement>('table[data-grid]')) {
    const first = table.querySelector<HTMLElement>('tbody td');
    if (first) first.tabIndex = 0;
    table.addEventListener('keydown', (event) => {
      const step = STEPS[event.key];
      const cell = event.target instanceof Element ? event.target.closest('td') : null;
      if (!step || !cell) return;
      const next = neighbour(table, cell, step);
      if (!next) return;
      event.preventDefault();
      for (const other of table.querySelectorAll<HTMLElement>('td[tabindex="0"]')) {
        other.tabIndex = -1;
      }
      next.tabIndex = 0;
      next.focus();
    });
  }
}

/** The nearest cell shown in a direction; headings and hidden columns are passed over. */
function neighbour(
  table: HTMLTableElement,
  cell: HTMLTableCellElement,
  [down, across]: readonly [number, number],
): HTMLTableCellElement | undefined {
  const rows = [...table.rows];
  let row = rows.indexOf(cell.parentElement as HTMLTableRowElement);
  let column = cell.cellIndex;
  for (;;) {
    row += down;
    column += across;
    if (row < 0 || row >= rows.length || column < 1) return undefined;
    const next = rows[row]?.cells[column];
    if (next?.tagName === 'TD' && next.checkVisibility()) return next;
    if (across !== 0 && !next) return undefined;
  }
}
