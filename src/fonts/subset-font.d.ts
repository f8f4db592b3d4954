/** What is used here of the package, whose own types are of an earlier version. */
declare module 'subset-font' {
  interface Options {
    readonly targetFormat: 'sfnt' | 'woff2';
    readonly keepFeatures?: string[];
    readonly noHinting?: boolean;
    readonly keepAllGlyphs?: boolean;
  }
  export default function subset(
    font: Uint8Array,
    characters: string | undefined,
    options: Options,
  ): Promise<Uint8Array>;
}
