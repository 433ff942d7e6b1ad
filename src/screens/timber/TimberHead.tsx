import { Link } from "wouter";
import { shelf as words } from "./messages.ts";

const ways = [
  { href: "/timber", label: words.title },
  { href: "/timber/weigh", label: words.weigh },
  { href: "/timber/places", label: words.places },
  { href: "/timber/cuts", label: words.cuts },
] as const;

/** The title of a page of timber, with the ways to the others; the one to take first stands out. */
export function TimberHead({
  at,
  title,
  lead,
  main,
}: {
  readonly at: (typeof ways)[number]["href"];
  readonly title: string;
  readonly lead: string;
  readonly main?: (typeof ways)[number]["href"];
}) {
  return (
    <>
      <h1>{title}</h1>
      <p className="lead">{lead}</p>
      <ul className="timber-ways">
        {ways
          .filter(({ href }) => href !== at)
          .map(({ href, label }) => (
            <li key={href}>
              <Link href={href} {...(href === main && { className: "way-main" })}>
                {label}
              </Link>
            </li>
          ))}
      </ul>
    </>
  );
}
