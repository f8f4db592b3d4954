import type { System } from '../../schemas/index.ts';
import { among } from './problem.ts';
import { reportFor } from './report.ts';
import type { Places, Problem } from './types.ts';

/** Checks that a system's exceptions name standards, conductors and items that are there. */
export function exceptionProblems(
  system: System,
  places: Places,
  standards: ReadonlySet<string>,
): readonly Problem[] {
  const report = reportFor(places);
  const known = placesOf(system);
  system.exceptions.forEach(({ standard, at = [] }, i) => {
    if (!standards.has(standard)) {
      const message = `there is no house standard “${standard}”`;
      const path = ['exceptions', i, 'standard'];
      report.value('standard-unknown', path, message, among(standard, standards));
    }
    at.forEach((place, j) => {
      if (known.has(place)) return;
      const message = `this system has no conductor, cable or item “${place}”`;
      report.value('exception-astray', ['exceptions', i, 'at', j], message, among(place, known));
    });
  });
  return report.problems;
}

/** Everything an exception can be for: items, cables, and cores as `W3.BU`. */
function placesOf({ items, cables }: System): Set<string> {
  const cores = Object.entries(cables).flatMap(([cable, { cores: own }]) =>
    Object.keys(own).map((colour) => `${cable}.${colour}`),
  );
  return new Set([...Object.keys(items), ...Object.keys(cables), ...cores]);
}
