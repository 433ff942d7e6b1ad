import { spoken } from "../languages/spoken.ts";

const list = (names: readonly string[]) => names.join(", ");

export const door = spoken("door", "door", {
  signIn: "Sign in",
  signInLead: "This workshop is for its people. Sign in, and everything you write down stands under you.",
  signedOutTitle: "You were signed out in between",
  signedOut: "What you typed is still here, behind this sheet. Sign in again and go on where you were.",
  person: "Who signs in",
  personHint: "As the owner entered you, such as bench-2",
  passphrase: "Passphrase",
  show: "Show what I type",
  signingIn: "Looking at it …",
  forgotten: "Forgotten? The owner can give you a new one.",
  needed: "This is needed.",

  as: (name: string) => `Signed in: ${name}`,
  yours: "You and the people here",
  letIn: "Who may come in",
  signOut: "Sign out",
  customers: "Customers",

  notYours: {
    measure: (able: readonly string[]) => `You may look. Writing down is for ${list(able)}.`,
    release: (able: readonly string[]) => `This is for people who release: ${list(able)}.`,
    owner: (able: readonly string[]) => `This is the owner’s: ${list(able)}.`,
    safety: (able: readonly string[]) =>
      able.length === 0
        ? "Safety limits are adopted by the licensed person who answers for them, and nobody here is marked so. The owner can mark them."
        : `Safety limits are adopted by the licensed person who answers for them: ${list(able)}.`,
  },
});
