/** A mark on the drawing, in pixels from its upper left corner. */
export interface Mark {
  readonly x: number;
  readonly y: number;
}

export interface Room {
  readonly width: number;
  readonly height: number;
}

const rounds = 400;

/**
 * Moves marks apart until no two overlap, each as little as it can, and none out of the room. A finger then hits each;
 * a line leads from the mark to the place itself.
 *
 * @param size  what one mark takes
 */
export function pushedApart(places: readonly Mark[], size: Room, room: Room): readonly Mark[] {
  const marks = places.map(({ x, y }) => ({ x, y }));
  for (let round = 0; round < rounds; round += 1) {
    let moved = false;
    for (let i = 0; i < marks.length; i += 1) {
      for (let k = i + 1; k < marks.length; k += 1) {
        const [a, b] = [marks[i]!, marks[k]!];
        const over_x = size.width - Math.abs(b.x - a.x);
        const over_y = size.height - Math.abs(b.y - a.y);
        if (over_x <= 0.01 || over_y <= 0.01) continue;
        moved = true;
        if (over_x / size.width < over_y / size.height) {
          const step = (b.x >= a.x ? over_x : -over_x) / 2;
          a.x -= step;
          b.x += step;
        } else {
          const step = (b.y >= a.y ? over_y : -over_y) / 2;
          a.y -= step;
          b.y += step;
        }
      }
    }
    for (const mark of marks) {
      mark.x = Math.min(room.width - size.width / 2, Math.max(size.width / 2, mark.x));
      mark.y = Math.min(room.height - size.height / 2, Math.max(size.height / 2, mark.y));
    }
    if (!moved) break;
  }
  return marks;
}
