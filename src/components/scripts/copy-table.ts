/** Puts a copy button over each table that asks for one. */
export function offerCopies(): void {
  if (!navigator.clipboard) return;
  for (const table of document.querySelectorAll<HTMLTableElement>('table.copyable')) {
    const button = document.createElement('button');
    button.type = 'button';
    button.className = 'copy-button';
    button.textContent = 'Copy table';
    button.addEventListener('click', async () => {
      await navigator.clipboard.writeText(tableText(table));
      button.textContent = 'Copied';
      setTimeout(() => {
        button.textContent = 'Copy table';
      }, 2000);
    });
    table.after(button);
  }
}

/** A table's visible text: tabs between cells, a line a row, as spreadsheets paste it. */
export function tableText(table: HTMLTableElement): string {
  return [...table.rows]
    .map((row) => [...row.cells].filter((cell) => isRead(cell)).map(cellText))
    .filter((cells) => cells.length > 0)
    .map((cells) => cells.join('\t'))
    .join('\n');
}

/** Headings of a stacked table are set aside by style but are part of the text. */
const isRead = (cell: HTMLTableCellElement) =>
  cell.checkVisibility() || cell.closest('thead') !== null;

const cellText = (cell: HTMLTableCellElement) => visibleText(cell).replace(/\s+/g, ' ').trim();

/** Text of what is shown: a cell also holds the readings of other modes and instruments. */
function visibleText(node: Node): string {
  if (node instanceof Text) return node.data;
  return [...node.childNodes]
    .filter((child) => !(child instanceof Element) || child.checkVisibility())
    .map(visibleText)
    .join(' ');
}
