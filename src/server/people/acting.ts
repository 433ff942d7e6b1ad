import type { SignedIn } from "../../workshop/people/views.ts";

/** Who is behind a request. */
export type Acting =
  /** Nobody signs in here: whoever sits at the machine. */
  | { readonly kind: "anybody" }
  /** A command of somebody who may read the data folder. */
  | { readonly kind: "local" }
  | { readonly kind: "person"; readonly signedIn: SignedIn; readonly token_sha256: string }
  | { readonly kind: "stranger" };

declare module "fastify" {
  interface FastifyRequest {
    acting: Acting;
  }
}

export const stranger: Acting = { kind: "stranger" };
