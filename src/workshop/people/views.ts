import type { Right } from "../../claims/people/right.ts";

/** Somebody signed in, as their own page shows them. */
export interface SignedIn {
  readonly person: string;
  readonly name: string;
  readonly may: Right;
  readonly answersForSafety: boolean;
}

/** Whether people sign in here, who is signed in, and who may do what one may not. */
export interface SessionView {
  /** False in a workshop of one machine that nobody needs to sign in to. */
  readonly people: boolean;
  readonly signedIn?: SignedIn;
  /** Names of those who may, for each right that is more than to look; only for those signed in. */
  readonly able?: {
    readonly measure: readonly string[];
    readonly release: readonly string[];
    readonly owner: readonly string[];
    readonly safety: readonly string[];
  };
}

/** A person as the owner sees them. */
export interface PersonView extends SignedIn {
  /** When what they may do was last changed. */
  readonly since: string;
  /** Browsers they are signed in at. */
  readonly sessions: number;
  readonly seenAt?: string;
  /** The name was erased on request. */
  readonly isErased: boolean;
}

export interface PeopleView {
  readonly people: readonly PersonView[];
}

/** A customer as orders name them, with what can be erased. */
export interface CustomerView {
  readonly customer: string;
  readonly name?: string;
  readonly address?: string;
  readonly orders: readonly string[];
}

export interface CustomersView {
  /** Those who ordered last, or those in whom the words sought are found; by their ids. */
  readonly customers: readonly CustomerView[];
  /** So many there are, or so many in whom the words are found. */
  readonly inAll: number;
}

/** A copy that still holds what was erased here. */
export interface HoldingCopy {
  readonly folder: string;
  readonly copy: string;
}

/** What an erasure reached, and what it did not. */
export interface ErasureView {
  readonly erased: string;
  /** Copies that still hold it. */
  readonly holding: readonly HoldingCopy[];
  /** Copies it was taken out of. */
  readonly rewritten: readonly HoldingCopy[];
  /** Folders of copies that could not be looked into, and why. */
  readonly unread: readonly { readonly folder: string; readonly why: string }[];
  readonly alsoKeep: string;
}
