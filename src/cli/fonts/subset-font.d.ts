declare module 'subset-font' {
  interface SubsetOptions {
    targetFormat: 'woff2' | 'truetype';
    keepFeatures?: readonly string[];
    variationAxes?: Readonly<Record<string, { min: number; max: number }>>;
    noHinting?: boolean;
    keepAllGlyphs?: boolean;
  }
  /** A font with the characters of a text alone; `text` is empty where all glyphs are kept. */
  export default function subsetFont(font: Buffer, text: string, options: SubsetOptions): Promise<Buffer>;
}
