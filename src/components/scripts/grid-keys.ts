const STEPS: Readonly<Record<string, readonly [down: number, across: number]>> = {
  ArrowUp: [-1, 0],
  ArrowDown: [1, 0],
  ArrowLeft: [0, -1],
  ArrowRight: [0, 1],
};

/** Lets arrow keys move from cell to cell in tables of readings; Tab enters at one cell. */
export function moveInGrids(): void {
  const tables = document.querySelectorAll<HTMLTableElement>('table[data-grid]');
  // A narrow page shows the mode chosen alone, so where to enter is settled when Tab is pressed.
  document.addEventListener('keydown', ({ key }) => {
    if (key === 'Tab') for (const table of tables) enterWhereShown(table);
  });
  for (const table of tables) {
    table.addEventListener('keydown', (event) => {
      const step = STEPS[event.key];
      const cell = event.target instanceof Element ? event.target.closest('td') : null;
      if (!step || !cell) return;
      const next = neighbour(table, cell, step);
      if (!next) return;
      event.preventDefault();
      enterAt(table, next);
      next.focus();
    });
  }
}

function enterAt(table: HTMLTableElement, cell: HTMLTableCellElement): void {
  for (const other of table.querySelectorAll<HTMLElement>('td[tabindex="0"]')) {
    other.tabIndex = -1;
  }
  cell.tabIndex = 0;
}

/** Keeps the cell that Tab enters at; where it is hidden, takes one shown in its row. */
function enterWhereShown(table: HTMLTableElement): void {
  const cell = table.querySelector('td[tabindex="0"]');
  if (cell?.checkVisibility()) return;
  const cells = (cell?.closest('tr') ?? table).querySelectorAll('td');
  const shown = [...cells].find((each) => each.checkVisibility());
  if (shown) enterAt(table, shown);
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
