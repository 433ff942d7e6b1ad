import type { Evidence } from "../evidence.ts";

/** Pieces that an entry says something of. */
export function piecesOf({ body }: Evidence): readonly string[] {
  switch (body.kind) {
    case "blank":
    case "board-marks":
    case "weighing":
    case "offcut":
    case "machined":
    case "flaw":
      return [body.piece];
    case "stood":
    case "coat":
    case "meant":
    case "planned-stages":
      return body.pieces;
    case "sawn":
      return [body.piece, ...body.into.map(({ piece }) => piece)];
    case "case":
      return body.panels.map(({ piece }) => piece);
    default:
      return [];
  }
}
