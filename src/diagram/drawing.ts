/** A drawing as SVG text with its natural size, px. */
export interface Drawing {
  readonly svg: string;
  readonly width: number;
  readonly height: number;
}
