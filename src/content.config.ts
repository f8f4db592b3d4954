import { defineCollection } from 'astro:content';
import { existsSync, readdirSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import { glob } from 'astro/loaders';
import { CONTENT, contentFolder, firmFolder } from './firm/folders.ts';

/**
 * The prose after each entry's frontmatter. What the frontmatter says is read and checked by
 * the entries room, so nothing is validated a second time here.
 */
const prose = (folder: string) =>
  defineCollection({
    // An empty folder of a firm is nothing to warn of.
    loader:
      existsSync(folder) && readdirSync(folder).some((file) => file.endsWith('.mdx'))
        ? glob({
            pattern: '*.mdx',
            base: pathToFileURL(`${folder}/`),
            retainBody: false,
            deferRender: true,
          })
        : () => [],
  });

const ours = (kind: string) => prose(`${contentFolder()}/${kind}`);
/** The same for a firm's entries; empty where there is none. */
const firms = (kind: string) => prose(`${firmFolder() ?? ''}/${CONTENT}/${kind}`);

export const collections = {
  systems: ours('systems'),
  devices: ours('devices'),
  symptoms: ours('symptoms'),
  procedures: ours('procedures'),
  standards: ours('standards'),
  glossary: ours('glossary'),
  modules: ours('modules'),
  'firm-systems': firms('systems'),
  'firm-devices': firms('devices'),
  'firm-symptoms': firms('symptoms'),
  'firm-procedures': firms('procedures'),
  'firm-standards': firms('standards'),
  'firm-glossary': firms('glossary'),
  'firm-modules': firms('modules'),
};
