import { type Case, edited } from './fixture.ts';

const PLAIN = 'systems/plain-bench.mdx';

/** The plain bench with its one sentence of prose replaced. */
const saying = (prose: string) => edited(PLAIN, ['The plainest arrangement there is.', prose]);

/** Bodies with components that are not there, or that name what is not there. */
export const BAD_BODIES: readonly Case[] = [
  {
    name: 'heading of the first order',
    folder: saying('# How it works'),
    problems: [
      'systems/plain-bench.mdx:68:1 body-heading: the one heading with a single # is the entry’s title; a body’s begin with ##',
    ],
  },
  {
    name: 'typographic quotation marks round an attribute',
    folder: saying('<Term at=“E1.L” />'),
    problems: [
      'systems/plain-bench.mdx:68:10 smart-quotes: typographic quotation marks hold no attribute; MDX knows only straight ones, " and \'',
    ],
  },
  {
    name: 'unknown component',
    folder: saying('It reads <Readng at="E1.L" mode="calling" /> there.'),
    problems: [
      'systems/plain-bench.mdx:68:10 component-unknown: there is no <Readng> to stand in a body',
    ],
  },
  {
    name: 'component in a body that has none',
    folder: edited('symptoms/stays-cold.mdx', ['the knob', '<Term at="S1.call feed" />']),
    problems: [
      'symptoms/stays-cold.mdx:15:9 component-unknown: a body of this kind has no component; <Term> is one',
    ],
  },
  {
    name: 'component of a component',
    folder: saying('It reads <Reading.Value at="E1.L" /> there.'),
    problems: [
      'systems/plain-bench.mdx:68:10 component-unknown: there is no <Reading.Value> to stand in a body',
    ],
  },
  {
    name: 'misspelt attribute',
    folder: saying('It reads <Reading at="E1.L" mod="calling" /> there.'),
    problems: ['systems/plain-bench.mdx:68:29 attribute-unknown: <Reading> takes no “mod”'],
  },
  {
    name: 'attribute of another component',
    folder: saying('Go to <Term at="E1.L" mode="calling" /> first.'),
    problems: ['systems/plain-bench.mdx:68:23 attribute-unknown: <Term> takes no “mode”'],
  },
  {
    name: 'reading without its mode',
    folder: saying('Read <Reading at="E1.L" />.'),
    problems: ['systems/plain-bench.mdx:68:6 attribute-missing: <Reading> has no “mode”'],
  },
  {
    name: 'terminal without its name',
    folder: saying('Go to <Term>the heater</Term> first.'),
    problems: ['systems/plain-bench.mdx:68:7 attribute-missing: <Term> has no “at”'],
  },
  {
    name: 'attribute as a program',
    folder: saying('Read <Reading at="E1.L" mode={calling} />.'),
    problems: [
      'systems/plain-bench.mdx:68:25 attribute-form: what <Reading> is given stands in quotation marks, not as a program',
    ],
  },
  {
    name: 'attributes spread',
    folder: saying('Go to <Term at="E1.L" {...rest} /> first.'),
    problems: [
      'systems/plain-bench.mdx:68:23 attribute-form: what <Term> is given stands in quotation marks, not as a program',
    ],
  },
  {
    name: 'attribute given twice',
    folder: saying('Go to <Term at="E1.L" at="E1.N" /> first.'),
    problems: ['systems/plain-bench.mdx:68:23 attribute-form: <Term> is given “at” twice'],
  },
  {
    name: 'terminal of an unknown item in a body',
    folder: saying('Go to <Term at="E2.L" /> first.'),
    problems: ['systems/plain-bench.mdx:68:17 item-unknown: this system has no item E2'],
  },
  {
    name: 'undeclared terminal in a body',
    folder: saying('Far down the body\n\n- é, then\n  <Term\n    at="S1.call fed"\n  /> and on.'),
    problems: [
      'systems/plain-bench.mdx:72:9 terminal-undeclared: S1 (room-switch) has no terminal “call fed”',
    ],
  },
  {
    name: 'terminal without its item in a body',
    folder: saying("Go to <Term at='E1:L' /> first."),
    problems: [
      'systems/plain-bench.mdx:68:17 value-form: a terminal reference is ITEM.terminal, as in A1.call feed',
    ],
  },
  {
    name: 'undeclared terminal to read against',
    folder: saying('Read <Reading at="E1.L" mode="calling" to="E1.M" />.'),
    problems: [
      'systems/plain-bench.mdx:68:44 terminal-undeclared: E1 (bench-heater) has no terminal “M”',
    ],
  },
  {
    name: 'reading in an unknown mode',
    folder: saying('Read <Reading mode="callling" at="E1.L" />.'),
    problems: ['systems/plain-bench.mdx:68:21 mode-unknown: this system has no mode “callling”'],
  },
  {
    name: 'reading against itself',
    folder: saying('Read <Reading at="E1.L" mode="calling" to="E1.L" />.'),
    problems: [
      'systems/plain-bench.mdx:68:44 reading-against-nothing: a reading is taken between two points; both are E1.L',
    ],
  },
  {
    name: 'reading against nothing',
    folder: saying(
      'Read <Reading at="E1.E" mode="calling" /> and <Reading at="S1.call feed" mode="calling" />.',
    ),
    problems: [
      'systems/plain-bench.mdx:68:19 reading-against-nothing: E1.E has nothing of its own to be read against; say to="ITEM.terminal"',
      'systems/plain-bench.mdx:68:60 reading-against-nothing: S1.call feed has nothing of its own to be read against; say to="ITEM.terminal"',
    ],
  },
  {
    name: 'program in a body',
    folder: saying('It draws {230 * 2} W.'),
    problems: [
      'systems/plain-bench.mdx:68:10 body-program: what stands in braces is a program; a body has none. A brace in prose is \\{',
    ],
  },
  {
    name: 'handler on a tag',
    folder: saying('It is <b onclick="go()">hot</b> and <i title={x}>red</i>.'),
    problems: [
      'systems/plain-bench.mdx:68:7 body-tag: <b> takes no “onclick” in a body',
      'systems/plain-bench.mdx:68:37 body-program: <i> is given a program; a body has none',
    ],
  },
  {
    name: 'frame and picture',
    folder: saying('See <iframe src="/x/" /> and ![it](./it.png).'),
    problems: [
      'systems/plain-bench.mdx:68:5 body-tag: a body has no <iframe>',
      'systems/plain-bench.mdx:68:30 body-tag: a body has no pictures',
    ],
  },
  {
    name: 'link to a program',
    folder: saying('Go [here](javascript:go) or <a href="data:text/html,x">there</a>.'),
    problems: [
      'systems/plain-bench.mdx:68:4 body-link: a link cannot lead to “javascript:go”',
      'systems/plain-bench.mdx:68:29 body-link: a link cannot lead to “data:text/html,x”',
    ],
  },
];
