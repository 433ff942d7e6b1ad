import type { Words } from "../catalogue.ts";

const liste = (namen: readonly string[]) => namen.join(", ");

/** The way in in German. */
export const said: Words<"door"> = {
  door: {
    signIn: "Anmelden",
    signInLead: "Diese Werkstatt ist für ihre Leute. Melden Sie sich an; was Sie eintragen, steht dann unter Ihnen.",
    signedOutTitle: "Sie wurden zwischendurch abgemeldet",
    signedOut:
      "Was Sie getippt haben, liegt noch hinter diesem Blatt. Melden Sie sich wieder an und machen Sie weiter.",
    person: "Wer sich anmeldet",
    personHint: "So, wie der Inhaber Sie eingetragen hat, etwa bench-2",
    passphrase: "Kennwort",
    show: "Zeigen, was ich tippe",
    signingIn: "Wird geprüft …",
    forgotten: "Vergessen? Der Inhaber kann Ihnen ein neues geben.",
    needed: "Das wird gebraucht.",
    as: (name) => `Angemeldet: ${name}`,
    yours: "Sie und die Leute hier",
    letIn: "Wer hereindarf",
    signOut: "Abmelden",
    customers: "Kunden",
    notYours: {
      measure: (able) => `Sie dürfen ansehen. Eintragen können: ${liste(able)}.`,
      release: (able) => `Das ist für Leute, die freigeben: ${liste(able)}.`,
      owner: (able) => `Das ist Sache des Inhabers: ${liste(able)}.`,
      safety: (able) =>
        able.length === 0
          ? "Sicherheitsgrenzen übernimmt die befugte Fachkraft, die dafür einsteht, und niemand ist hier so gekennzeichnet. Der Inhaber kann das tun."
          : `Sicherheitsgrenzen übernimmt die befugte Fachkraft, die dafür einsteht: ${liste(able)}.`,
    },
  },
};
