/** Sections of a system's page, in order: id and the name its jump link has. */
export const SECTIONS = [
  ['facts', 'Recognise'],
  ['cautions', 'Cautions'],
  ['live-path', 'Live path'],
  ['diagram', 'Diagram'],
  ['wiring', 'Wiring'],
  ['readings', 'Readings'],
  ['sequence', 'Sequence'],
  ['symptoms', 'Symptoms'],
  ['cables', 'Cables'],
  ['standards', 'Standards'],
  ['how', 'Explanation'],
  ['record', 'Record'],
] as const;
