import { defineCollection } from 'astro:content';
import { pathToFileURL } from 'node:url';
import { glob } from 'astro/loaders';
import { contentFolder } from './reference/index.ts';

/**
 * The prose after each entry's frontmatter. What the frontmatter says is read and checked by
 * the entries room, so nothing is validated a second time here.
 */
const prose = (kind: string) =>
  defineCollection({
    loader: glob({
      pattern: '*.mdx',
      base: pathToFileURL(`${contentFolder()}/${kind}/`),
      retainBody: false,
      deferRender: true,
    }),
  });

export const collections = {
  systems: prose('systems'),
  devices: prose('devices'),
  symptoms: prose('symptoms'),
  procedures: prose('procedures'),
  glossary: prose('glossary'),
};
