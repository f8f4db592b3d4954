import { FACETS, type Facet, type Facets, KIND_TITLES, type Vocabulary } from './names.ts';
import { element } from './result-list.ts';

const QUESTIONS: Readonly<Record<Facet, string>> = {
  kind: 'What',
  arrangement: 'Boiler',
  control: 'Control',
  feature: 'Also there',
};

/** The values of each facet that some name has, in order of first appearance. */
export function facetValues({ names }: Vocabulary): ReadonlyMap<Facet, readonly string[]> {
  const values = new Map<Facet, Set<string>>(FACETS.map((facet) => [facet, new Set()]));
  for (const { kind, facets } of names) {
    values.get('kind')!.add(kind);
    for (const facet of FACETS)
      for (const value of facets?.[facet] ?? []) values.get(facet)!.add(value);
  }
  return new Map([...values].map(([facet, set]) => [facet, [...set]]));
}

/** The facets an address asks for. */
export function facetsIn(parameters: URLSearchParams): Facets {
  return Object.fromEntries(FACETS.map((facet) => [facet, parameters.getAll(facet)]));
}

/** A form of chips for the facets, those chosen checked. */
export function facetForm(vocabulary: Vocabulary, chosen: Facets): HTMLFormElement {
  const form = element('form', 'facets');
  for (const [facet, values] of facetValues(vocabulary)) {
    if (values.length === 0) continue;
    const group = element('fieldset');
    const legend = element('legend');
    legend.textContent = QUESTIONS[facet];
    group.append(legend);
    for (const value of values) {
      const chip = element('label', 'chip');
      const box = element('input');
      box.type = 'checkbox';
      box.name = facet;
      box.value = value;
      box.checked = chosen[facet]?.includes(value) ?? false;
      const label = element('span');
      label.textContent = labelOf(facet, value);
      chip.append(box, label);
      group.append(chip);
    }
    form.append(group);
  }
  return form;
}

function labelOf(facet: Facet, value: string): string {
  const title =
    facet === 'kind' ? Object.entries(KIND_TITLES).find(([kind]) => kind === value) : undefined;
  return title?.[1] ?? value.charAt(0).toUpperCase() + value.slice(1);
}
