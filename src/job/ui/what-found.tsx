import type { ComponentChildren } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import { capital } from '../../words/index.ts';
import type { FoundRepair, FoundThere } from '../findings.ts';

interface Props {
  /** What the look or comparing was, in words. */
  readonly act: string;
  readonly found: readonly FoundThere[];
  readonly onTake: (repair: FoundRepair) => void;
  readonly onNone: () => void;
}

/** So many are listed as they are; of more, the core is asked for first. */
const FEW = 6;

/** Asks what was found in an open box: whoever found it has it in front of them. */
export function WhatFound({ act, found, onTake, onNone }: Props) {
  const title = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    scrollTo({ top: 0 });
    if (document.activeElement === document.body) title.current?.focus({ preventScroll: true });
  }, []);
  const cables = [...Map.groupBy(found.flatMap(byCore), ({ cable }) => cable)].toSorted(
    ([a], [b]) => refOf(a).localeCompare(refOf(b), undefined, { numeric: true }),
  );
  const elsewhere = found.filter(({ cores }) => cores.length === 0);
  const isFew = found.length <= FEW;
  return (
    <section class="panel what-found" aria-labelledby="next-title">
      <div class="panel-head">
        <h2 id="next-title" tabIndex={-1} ref={title}>
          What was found?
        </h2>
      </div>
      <p class="next-what">{isFew ? 'Which of these is it?' : 'Which core is it?'}</p>
      <p class="next-where">{act}</p>
      {isFew ? (
        <Finds found={found} onTake={onTake} />
      ) : (
        <>
          {cables.map(([cable, cores]) => (
            <Fold key={cable} title={capital(cable)} name="cable" open={cables.length === 1}>
              {[...Map.groupBy(cores, ({ core }) => core)].map(([core, at]) => (
                <Fold key={core} title={`${capital(core)} core`} name="core">
                  <Finds found={at.map(({ one }) => one)} onTake={onTake} />
                </Fold>
              ))}
            </Fold>
          ))}
          {elsewhere.length > 0 && (
            <Fold title="Elsewhere in the box" name="cable">
              <Finds found={elsewhere} onTake={onTake} />
            </Fold>
          )}
        </>
      )}
      <button type="button" class="quiet-button" onClick={onNone}>
        None of these
      </button>
    </section>
  );
}

/** The reference that a cable's words end with. */
const refOf = (cable: string) => cable.slice(cable.lastIndexOf(' ') + 1);

/** One find under each core that it is at: two that are crossed are looked for under either. */
const byCore = (one: FoundThere) => one.cores.map(({ cable, core }) => ({ cable, core, one }));

interface FoldProps {
  readonly title: string;
  /** Of those with one name, one is open at a time. */
  readonly name: 'cable' | 'core';
  readonly open?: boolean;
  readonly children: ComponentChildren;
}

/** What is folded is made when it is opened: a wiring centre shows hundreds of finds. */
function Fold({ title, name, open: begins = false, children }: FoldProps) {
  const [open, setOpen] = useState(begins);
  return (
    <details
      class={`fold ${name}-fold`}
      name={name}
      open={begins}
      onToggle={(event) => setOpen(event.currentTarget.open)}
    >
      <summary>{title}</summary>
      {open && children}
    </details>
  );
}

const Finds = ({ found, onTake }: Pick<Props, 'found' | 'onTake'>) => (
  <ul class="left-list">
    {found.map(({ repair }) => (
      <li key={repair.key}>
        <button type="button" class="quiet-button" onClick={() => onTake(repair)}>
          {repair.causes[0]!.title}
        </button>
      </li>
    ))}
  </ul>
);
