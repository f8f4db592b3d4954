/** What each code about a firm's folder over the reference means. See `CATALOGUE`. */
export const FIRM_CODES = {
  'entry-shadows': {
    title: 'Entry with the name of a reference’s entry',
    why: 'Two entries of one kind cannot share a name, and it must be plain to everybody which of them is meant to be read.',
    mend: 'Say `replaces:` with the name to put yours in its place, `extends:` with the name to add to it, or rename the file.',
  },
  'replaces-unknown': {
    title: 'Nothing to replace',
    why: 'The reference has no entry of this kind with this name. After an update it may have been renamed.',
    mend: 'Use the file name of an entry of the reference, without .mdx, or leave the line out.',
  },
  'replaces-elsewhere': {
    title: 'Replacement in a file of another name',
    why: 'An entry is found by its file name. One that stands in the place of another bears its name, so that every address still leads there.',
    mend: 'Rename the file as the message says.',
  },
  'replaces-circle': {
    title: 'Entries that replace one another',
    why: 'Each would stand in the place of the other, so neither would be there.',
    mend: 'An entry replaces the reference’s entry of its own name; take the lines out or correct them.',
  },
  'extends-elsewhere': {
    title: 'Extension of another entry',
    why: 'Only a device can start from any other. Every other kind adds to the reference’s entry of its own name, so that no change there passes unseen.',
    mend: 'Name the file after the entry that it adds to, or take the line out.',
  },
  'entry-unknown': {
    title: 'Unknown entry',
    why: 'The settings name an entry that is not there. After an update it may have been renamed.',
    mend: 'Write the folder and the file name without .mdx, as in systems/combi-two-wire.',
  },
  'feature-taken': {
    title: 'Feature or heading that the reference has',
    why: 'Readers choose by both on one page, and could not tell them apart.',
    mend: 'Use the reference’s own, without a line in the settings, or give yours another name.',
  },
  'hidden-needed': {
    title: 'Hidden entry that is needed',
    why: 'Pages that are shown lead to it or are computed from it.',
    mend: 'Hide what needs it as well, or put an entry of your own in its place.',
  },
  'hidden-own': {
    title: 'Hidden entry of the firm’s own',
    why: 'Hiding is for entries of the reference. One of your own that is not wanted would be kept and read by nobody.',
    mend: 'Take its file out of the folder, or the line out of the settings.',
  },
  'firm-missing': {
    title: 'No firm’s folder',
    why: 'A firm’s folder holds its settings in firm.yaml, and its entries in content/.',
    mend: 'Check the path, or make one: npm run new -- firm FOLDER',
  },
  'accent-contrast': {
    title: 'Accent colour that is hard to read',
    why: 'Links and buttons are written in the accent colour, on paper in daylight and on slate in the dark. WCAG 2.2 asks for a contrast of 4.5 to 1 at least.',
    mend: 'Take the colour proposed, or another that is darker in the light scheme and lighter in the dark.',
  },
  'counts-unfit': {
    title: 'Counts of visits that cannot be read',
    why: 'The order of tests follows what the firm’s visits found. A file that is not as it was written would change it unseen.',
    mend: 'Take the file from the repository again, put right what the message names, or remove it and gather anew: npm run gather.',
  },
  'logo-unfit': {
    title: 'Logo that cannot be shown',
    why: 'A logo is sent to every phone with every page and opened beside scripts of the site: it is small, a picture and nothing else.',
    mend: 'Export it again as PNG, JPEG or plain SVG, without scripts, links or embedded files.',
  },
} as const;
