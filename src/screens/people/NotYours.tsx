import { door } from "./doorMessages.ts";
import { useMay } from "./session.ts";

interface Props {
  readonly need: keyof typeof door.notYours;
}

/** Says who may do what whoever is signed in may not; nothing to those who may. */
export function NotYours({ need }: Props) {
  const { may, able } = useMay(need);
  if (may) return null;
  return <p className="not-yours">{door.notYours[need](able)}</p>;
}
