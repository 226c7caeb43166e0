const { Segmenter } = Intl;

/**
 * Stands in the bundle for `Intl.Segmenter`, which libraries make as they are loaded: a tenth of the time to the first frame,
 * and most texts never need one. It is made when the first text asks for it.
 */
export class LateSegmenter {
  constructor(...choices) {
    this.choices = choices;
  }

  segment(text) {
    this.made ??= new Segmenter(...this.choices);
    return this.made.segment(text);
  }
}
