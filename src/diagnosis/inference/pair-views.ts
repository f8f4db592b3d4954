import type { Evidence } from './likelihood.ts';
import type { Model } from './model.ts';
import type { Observation } from './observation.ts';
import {
  type Group,
  type GroupPair,
  likeliestGroups,
  pairCandidates,
  partnerCandidates,
} from './pair-candidates.ts';
import { hopefulFirst, type Neighbours, type Two } from './pair-near.ts';

/** What was reported, or a part of it, and what every group of faults makes of that. */
export interface View {
  readonly evidence: readonly Evidence[];
  /** Codes by observation, in the order of the singles. */
  readonly predicted: readonly Uint8Array[];
  /** The groups with their marks and likelihood in this part alone, likeliest first. */
  readonly groups: readonly Group[];
}

/** One fault, with others to try beside it as one part of what was reported makes them likely. */
export interface Anchor {
  readonly group: Group;
  /** Twos with a fault that acts where it does, the most hopeful first. */
  readonly meeting: readonly Two[];
  /** Groups by the estimated posterior of the two together, likeliest first. */
  readonly others: readonly Group[];
}

/**
 * What was reported as a whole, then taken apart by mode. Two faults that change what each
 * other does leave nearly always some mode in which they do not, or in which one of them rules:
 * there they are among the likeliest, though over all modes neither is.
 */
export function viewsOf(
  { singles }: Model,
  observations: readonly Observation[],
  evidence: readonly Evidence[],
  predicted: readonly Uint8Array[],
  groups: readonly Group[],
): View[] {
  const sound = singles.length - 1;
  const byMode = Map.groupBy(observations.keys(), (place) => observations[place]!.mode);
  const parts = [...byMode.values()].map((places) => {
    const codes = places.map((place) => predicted[place]!);
    const own = places.map((place) => evidence[place]!);
    const seen = groups.map(({ members, at }) => ({
      members,
      at,
      marks: [...codes.keys()].filter((o) => codes[o]![at] !== codes[o]![sound]),
      log: own.reduce((sum, { log }) => sum + log[at]!, 0),
    }));
    return { evidence: own, predicted: codes, groups: likeliestGroups(singles, seen) };
  });
  return [{ evidence, predicted, groups: likeliestGroups(singles, groups) }, ...parts];
}

/** Pairs of groups by what each view makes of them: the first few of each in turn, then the next few. */
export function* candidatesByView(
  { singles }: Model,
  views: readonly View[],
  few: number,
): Generator<readonly GroupPair[]> {
  const ranked = views.map(({ groups, evidence, predicted }) =>
    pairCandidates(singles, groups, evidence, predicted),
  );
  for (let from = 0; ranked.some(({ length }) => length > from); from += few)
    yield ranked.flatMap((pairs) => pairs.slice(from, from + few));
}

/** Every group as an anchor, each once: the likeliest of each view, then the second of each. */
export function* anchorsByView(
  model: Model,
  views: readonly View[],
  neighbours: Neighbours,
): Generator<readonly Anchor[]> {
  const done = new Set<number>();
  for (let turn = 0; turn < views[0]!.groups.length; turn++) {
    const anchors: Anchor[] = [];
    for (const { evidence, predicted, groups } of views) {
      const group = groups[turn]!;
      if (done.has(group.at)) continue;
      done.add(group.at);
      const meeting = neighbours
        .unlike(group.members)
        .flatMap((at) => neighbours.of(at).map((other): Two => [at, other]));
      anchors.push({
        group,
        meeting: hopefulFirst(model, evidence, meeting, meeting.length),
        others: partnerCandidates(model.singles, group, groups, evidence, predicted).map(
          ({ b }) => b,
        ),
      });
    }
    yield anchors;
  }
}
