import { actIn, fuseIn, itemIn, pointIn, refOf, type Sheet, type SheetOpening } from './sheet.ts';

/** The openings that a reading or a fuse needs, each once. */
export function openingsFor(sheet: Sheet, asked: OpeningsAsked): SheetOpening[] {
  const found = [asked.from, asked.to].flatMap((id) => {
    const point = id ? pointIn(sheet, id) : undefined;
    const item = id ? itemIn(sheet, refOf(id)) : undefined;
    return point && item && point.opening !== null ? [item.openings[point.opening]!] : [];
  });
  const fuse = asked.branch ? fuseIn(sheet, asked.branch) : undefined;
  if (fuse && fuse.opening !== null)
    found.push(itemIn(sheet, refOf(asked.branch!))!.openings[fuse.opening]!);
  const act = asked.act ? actIn(sheet, asked.act) : undefined;
  if (act) found.push(itemIn(sheet, act.item)!.openings[act.opening]!);
  return [...new Set(found)];
}

interface OpeningsAsked {
  readonly from?: string | null;
  readonly to?: string | null;
  readonly branch?: string | null;
  /** Id of an act. */
  readonly act?: string | null;
}
