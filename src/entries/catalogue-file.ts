/** What each code about a file, its frontmatter or a single value means. See `CATALOGUE`. */
export const FILE_CODES = {
  'folder-missing': {
    title: 'No content folder',
    why: 'The folder to read is not there, so nothing can be said of its entries.',
    mend: 'Check the path; it is taken from the folder the command runs in.',
  },
  'folder-empty': {
    title: 'No entries',
    why: 'The folder holds none of systems/, devices/, symptoms/, procedures/, standards/, glossary/ with an entry in it. Most often the path names the wrong folder.',
    mend: 'Name the folder that holds systems/ and devices/.',
  },
  'folder-unknown': {
    title: 'Folder that holds no kind of entry',
    why: 'Entries are read from systems/, devices/, symptoms/, procedures/, standards/ and glossary/ only, and not from folders within them. What stands elsewhere would be lost without a word.',
    mend: 'Rename the folder, or move its files.',
  },
  'file-name': {
    title: 'File name that is no entry name',
    why: 'The file name is the entry’s name: other entries and addresses of pages use it. It is lower-case words and digits joined by hyphens, and ends in .mdx.',
    mend: 'Rename the file, and the name where other entries use it.',
  },
  'file-unreadable': {
    title: 'File that cannot be read',
    why: 'The system refused to read it: no permission, a broken link, or a folder where a file should be.',
    mend: 'Check the file’s permissions.',
  },
  'file-link': {
    title: 'Link in place of a file',
    why: 'A link may lead out of the folder, to files that nobody meant to publish, and is not there on the next machine.',
    mend: 'Put the file or folder itself in its place.',
  },
  'file-too-large': {
    title: 'File too large for an entry',
    why: 'An entry is a few kilobytes of text. A file of this size is something else, put here by mistake.',
    mend: 'Take the file out of the folder.',
  },
  'file-empty': {
    title: 'Empty file',
    why: 'An entry needs frontmatter at least.',
    mend: 'Write the entry, or delete the file.',
  },
  'file-not-utf8': {
    title: 'Not UTF-8 text',
    why: 'The file was saved in another encoding, so that signs such as ° or Ω would come out wrong.',
    mend: 'Save the file as UTF-8.',
  },
  'file-byte-order-mark': {
    title: 'Byte order mark',
    why: 'Some editors put an invisible mark before the first character; other tools then miss the frontmatter.',
    mend: 'Save the file as UTF-8 without BOM.',
  },
  'file-line-endings': {
    title: 'Lines that end in CR',
    why: 'The same entry must be the same bytes on every machine, so that what changed can be compared. Lines end in LF.',
    mend: 'Set the editor’s line ending to LF and save.',
  },
  'frontmatter-missing': {
    title: 'No frontmatter',
    why: 'An entry begins with a line of three hyphens, then its frontmatter, then three hyphens again.',
    mend: 'Make --- the very first line, with nothing before it.',
  },
  'frontmatter-unterminated': {
    title: 'Frontmatter without an end',
    why: 'The second line of three hyphens is missing, so the whole file would be frontmatter.',
    mend: 'Put --- alone on a line after the last key, without spaces before it.',
  },
  'frontmatter-not-keys': {
    title: 'Frontmatter that is not keys and values',
    why: 'The frontmatter is empty, a list, or one text. An entry is keys with values.',
    mend: 'Write `key: value` lines, starting with title.',
  },
  'yaml-syntax': {
    title: 'YAML that does not parse',
    why: 'The frontmatter breaks YAML’s own rules at this place; what follows cannot be trusted, so it is not read.',
    mend: 'Look at the marked place and just before it: a bracket or quotation mark left open, a tab, a line indented differently from its neighbours, or a text with “: ” in it that needs quotation marks.',
  },
  'yaml-unsupported': {
    title: 'YAML that an entry does not use',
    why: 'Anchors, aliases, tags, keys that are lists, and very deep nesting hide what an entry says from the people who review it.',
    mend: 'Write the plain value where it belongs.',
  },
  'smart-quotes': {
    title: 'Typographic quotation marks',
    why: 'A word processor turned straight quotation marks into curly ones. YAML and MDX know only the straight ones and would take the curly ones for letters of the name or text.',
    mend: 'Write straight quotation marks, " or \'; most texts need none at all.',
  },
  'key-used-twice': {
    title: 'Key used twice',
    why: 'Of two equal keys in one place only one can count, and nobody can see which.',
    mend: 'Rename one, or join the two.',
  },
  'key-unknown': {
    title: 'Unknown key',
    why: 'The schema of this kind of entry has no such key here, so it would have no effect. Usually it is misspelt or indented to the wrong level.',
    mend: 'Use one of the allowed keys, or take the line out.',
  },
  'key-renamed': {
    title: 'Key under its old name',
    why: 'A date that no person stands behind is no review, so the key says what the date is: the day of a check.',
    mend: 'Write the new name. Where a person read the entry through, say who: review: { by: name, on: "YYYY-MM-DD", due: "YYYY-MM-DD" }.',
  },
  'key-form': {
    title: 'Key in the wrong form',
    why: 'Items are letters and a number (Q1), cables W and a number (W3), terminals are named by function, other names are lower-case words.',
    mend: 'Rename the key here and wherever it is used.',
  },
  'value-missing': {
    title: 'Missing value',
    why: 'The entry is not complete without this key.',
    mend: 'Add the key at the marked level.',
  },
  'value-type': {
    title: 'Value of the wrong type',
    why: 'A text stands where a number belongs, a number where a text belongs, a single value where a list belongs, or the like.',
    mend: 'Write the kind of value asked for. A terminal with a numeric name goes in quotation marks inside a list.',
  },
  'value-form': {
    title: 'Value in the wrong form',
    why: 'The value is of the right type and not written as it must be, as a terminal reference without its item.',
    mend: 'Follow the form in the message.',
  },
  'value-range': {
    title: 'Value out of range',
    why: 'The number, text or list is smaller or larger than it can be.',
    mend: 'Check the unit: lengths in m, sizes in mm², ratings in A, power in W.',
  },
  'value-not-allowed': {
    title: 'Not one of the allowed values',
    why: 'Only the listed values mean anything here.',
    mend: 'Take one of the list.',
  },
  'value-wrong': {
    title: 'Value that cannot stand here',
    why: 'The value breaks a rule that the message states.',
    mend: 'Follow the message.',
  },
  'date-none': {
    title: 'Day that no calendar has',
    why: 'The date is written as it must be and names a day or a month that does not exist.',
    mend: 'Look at the calendar and write the day that was meant.',
  },
  'colour-unknown': {
    title: 'Unknown core colour',
    why: 'Core colours are written as IEC 60757 letter codes, so that every table and diagram shows the same.',
    mend: 'Use the code: BN brown, BU blue, BK black, GY grey, GNYE green-yellow.',
  },
  'former-name-live': {
    title: 'Former name that is a name of today',
    why: 'The old address of the one would be the address of the other, and jobs kept under the old name would open on the wrong entry.',
    mend: 'Take the name off the list, or give the entry that bears it now another.',
  },
  'former-name-twice': {
    title: 'Former name that is claimed twice',
    why: 'An old address leads to one entry.',
    mend: 'Keep it where most of the old entry went, and take it out of the other list.',
  },
  'body-syntax': {
    title: 'Body that does not parse',
    why: 'The text after the frontmatter is MDX, in which < and { begin markup.',
    mend: 'Write &lt; for a less-than sign and \\{ for a brace, or close the tag.',
  },
  'body-import': {
    title: 'Program in a body',
    why: 'A body is prose. An import or export would let an entry run code in the build.',
    mend: 'Take the line out. A line of prose that begins with the word “import” or “export” must begin otherwise.',
  },
  'body-script': {
    title: 'Script in a body',
    why: 'Pages load nothing but the project’s own scripts, so this one would not run.',
    mend: 'Take the script out.',
  },
  'body-program': {
    title: 'Program in braces',
    why: 'What stands in braces would be run in the build, on the machine that makes the site.',
    mend: 'Take it out. Write \\{ for a brace, and {/* … */} for a remark that readers do not see.',
  },
  'body-tag': {
    title: 'HTML that prose does not hold',
    why: 'A body is prose: headings, lists, tables, links, words marked. Pictures, frames, forms, styles and handlers would load things, run things, or make the page look like another.',
    mend: 'Say it in Markdown, or leave the tag or its attribute out.',
  },
  'body-heading': {
    title: 'Heading of the first order in a body',
    why: 'A page has one heading of the first order, the title of its entry. Contents, screen readers and the bound pack find pages by it.',
    mend: 'Begin the headings of a body with ##.',
  },
  'body-link': {
    title: 'Link that leads nowhere safe',
    why: 'A link leads to a place on the page (#…), a page of the site (/systems/…/), another site (https://…), an address (mailto:…) or a telephone (tel:…), and to nothing that runs.',
    mend: 'Write the address in one of these forms.',
  },
} as const;
