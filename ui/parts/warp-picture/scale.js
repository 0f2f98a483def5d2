// From millimetres along a warp to places in its picture: horizontal, or upright where large text leaves no room.

/** Thickness of a beam, pixels. */
const BEAM = 16;

export class WarpScale {
  /** @param {number} width pixels there are @param {number} rem pixels @param {number} wholeMm length of the warp */
  constructor(width, rem, wholeMm) {
    this.width = width;
    this.rem = rem;
    this.wholeMm = Math.max(wholeMm, 1);
    this.isUpright = width < 16 * rem;
    /** Whether there is room for few labels only. */
    this.isNarrow = !this.isUpright && width < 40 * rem;
    /** Pixels along the warp. */
    this.long = this.isUpright ? 34 * rem : width;
    /** Pixels across it. Beside it the labels need room, however large the text is. */
    this.thick = this.isUpright ? Math.min(6 * rem, 0.3 * width) : (this.isNarrow ? 4.5 : 6.5) * rem;
    this.beam = BEAM;
  }

  /** How far along the picture a place of the warp is. @param {number} mm */
  along(mm) {
    const span = this.long - 2 * BEAM - 4;
    return BEAM + 2 + (Math.min(Math.max(mm, 0), this.wholeMm) / this.wholeMm) * span;
  }

  /** A box along the warp. @param {number} from @param {number} to @param {number} inset */
  box(from, to, inset) {
    const length = Math.max(to - from, 0);
    return this.isUpright
      ? { x: inset, y: this.long - to, width: this.thick - 2 * inset, height: length }
      : { x: from, y: inset, width: length, height: this.thick - 2 * inset };
  }

  /** A line across the warp. @param {number} at @param {number} out how far it reaches beyond */
  across(at, out) {
    return this.isUpright ? `M${-out} ${this.long - at}H${this.thick + out}` : `M${at} ${-out}V${this.thick + out}`;
  }

  /** Size and part of the drawing that is seen. */
  frame() {
    const { long, thick } = this;
    return this.isUpright
      ? { viewBox: `-12 0 ${thick + 24} ${long}`, width: thick + 24, height: long }
      : { viewBox: `0 -12 ${long} ${thick + 24}`, width: long, height: thick + 24 };
  }
}
