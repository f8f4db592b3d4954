import { existsSync, mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { FIRM_FILE, Firm } from '../../schemas/index.ts';
import { KINDS } from '../entries/index.ts';
import { CONTENT } from '../firm/index.ts';
import { isPackage, ownVersion, typedPath } from '../folder/index.ts';
import { writeFirmSchemas } from './firm-schemas.ts';
import { INSTALLED, writeFirmPackage } from './package/firm-package.ts';

/**
 * Writes the folder of a firm: settings, an empty folder for each kind of entry, what editors
 * need to complete them, and a wiring table to start from.
 * @param asPackage whether the folder is a repository of its own with Proveline as its package
 * @returns what to do next
 * @throws Error when the folder holds anything, or the name is no name
 */
export function writeFirm(folder: string, name: string, asPackage = isPackage()): string {
  const there = existsSync(folder) ? readdirSync(folder) : [];
  const inTheWay = there.find((one) => !one.startsWith('.') && !(asPackage && INSTALLED.has(one)));
  if (inTheWay !== undefined)
    throw new Error(
      `${folder === '.' ? 'This folder' : folder} holds files already, as ${inTheWay}; name a folder that is not there yet`,
    );
  const checked = Firm.shape.name.safeParse(name);
  if (!checked.success) throw new Error(`--name ${name}: ${checked.error.issues[0]?.message}`);
  for (const { folder: kind } of Object.values(KINDS))
    mkdirSync(join(folder, CONTENT, kind), { recursive: true });
  writeFileSync(join(folder, FIRM_FILE), settings(checked.data));
  writeFileSync(join(folder, 'wiring.csv'), WIRING);
  writeFirmSchemas(folder);
  if (asPackage) {
    writeFirmPackage(folder, checked.data, ownVersion());
    return nextInPackage(folder, checked.data);
  }
  const place = relative('.', folder) || '.';
  const typed = typedPath(place);
  return `${place}/ is the folder of ${checked.data}.
Its settings: ${place}/${FIRM_FILE}
A first system:  npm run new -- system --firm ${typed}
Look at it:      npm run dev -- --firm ${typed}
Build it:        npm run build -- --firm ${typed} --out ${typedPath(`${place}-site`)}`;
}

const nextInPackage = (folder: string, name: string) => {
  const there = relative('.', folder) || '.';
  const first = existsSync(join(folder, 'node_modules')) ? [] : ['npm install'];
  return [
    `${there}/ is the folder of ${name}. Its settings: ${join(there, FIRM_FILE)}`,
    ...(there === '.' ? [] : [`Go there:        cd ${typedPath(there)}`]),
    ...first.map((line) => `Install:         ${line}`),
    'A first system:  npx proveline new system --like combi-two-wire --title "Our combi"',
    'Look at it:      npx proveline dev',
    'Build it:        npx proveline build',
  ].join('\n');
};

const settings = (name: string) => `# yaml-language-server: $schema=schemas/firm.schema.json
# Settings of the firm. What stands behind # is left out; npm run check says what is wrong.
name: ${JSON.stringify(name)}
proveline: ${ownVersion()}            # version that its entries are for; npm run upgrade keeps it
contact: {}
#  phone: "01632 960000"
#  email: controls@firm.example
#  hours: 7 to 19, every day
# logo: logo.svg            # PNG, JPEG or plain SVG beside this file, at most 100 KB
# accent: { light: "#0b5c4b", dark: "#8fd8c2" }
# site: https://reference.example   # where it is served: for labels, the pack, check --published
base: /                     # path of the host it is served under, as /reference/
region: GB
instrument: tester          # or multimeter, low-impedance
cautions: []                # lines on every system's page and at the foot of all
hide: []                    # as systems/combi-volt-free
aliases:
  entries: {}               # systems/combi-two-wire: [our name for it]
  terminals: {}             # combi-boiler-mains-call: { call feed: [our mark] }
# features: { buffer vessel: { under: Round the boiler, aliases: [buffer tank] } }
reviews: { overdue: warn }  # or fail
`;

/** Wiring of a combi boiler with a two-wire room control, as a table to change. */
const WIRING = `from,core,to,cable,kind,size,earth size,length,sleeve
F1.L,brown,Q1.supply L,W1,twin and earth,2.5,1.5,18,
F1.N,blue,Q1.supply N,W1,,,,,
F1.E,green-yellow,Q1.supply E,W1,,,,,
Q1.load L,brown,E1.L,W2,flex,0.75,,2,
Q1.load N,blue,E1.N,W2,,,,,
Q1.load E,green-yellow,E1.E,W2,,,,,
E1.call feed,brown,B1.COM,W3,twin and earth,1,,9,
E1.call return,blue,B1.NO,W3,,,,,brown
E1.E,green-yellow,B1.E,W3,,,,,
`;
