import type { Words } from "../catalogue.ts";

const liste = (namen: readonly string[]) => namen.join(", ");

/** The people here and the customers in German. */
export const said: Words<"people"> = {
  words: {
    signOutEverywhere: "In jedem Browser abmelden",
    what: "Die Leute der Werkstatt",
    title: "Die Leute hier",
    lead: "Jeder handelt unter einem Kürzel, das für immer im Hauptbuch bleibt. Die Namen stehen daneben und lassen sich löschen.",
    you: "Sie",
    rights: { nothing: "gegangen", look: "ansehen", measure: "messen", release: "freigeben", owner: "Inhaber" },
    may: {
      nothing: "darf nicht mehr herein",
      look: "darf ansehen",
      measure: "darf ansehen und messen",
      release: "darf ansehen, messen und freigeben",
      owner: "darf alles und trägt Leute ein",
    },
    rightHints: {
      look: "sieht alles und lässt rechnen",
      measure: "trägt Messwerte, Aufnahmen und Schritte ein",
      release: "gibt auch Geräte frei, sagt Termine zu, setzt Modelle und Grenzen für Röhren",
      owner: "erlässt auch Belege, trägt Leute ein und löscht",
    },
    answers: "Befugte Fachkraft, steht für die Sicherheitsgrenzen ein",
    answersHint: "Nur wer dieses Zeichen hat, übernimmt Grenzen der Sicherheitsprüfungen.",
    answersShort: "steht für Sicherheitsgrenzen ein",
    here: (count) =>
      count === 0
        ? "nirgends angemeldet"
        : count === 1
          ? "in einem Browser angemeldet"
          : `in ${count} Browsern angemeldet`,
    erasedName: "Name gelöscht",
    ownPassphrase: "Ein neues eigenes Kennwort",
    present: "Das jetzige",
    next: "Das neue",
    nextHint: "Mindestens 12 Zeichen; vier Wörter, die niemand errät",
    again: "Dasselbe noch einmal",
    differ: "Die beiden stimmen nicht überein. Tippen Sie sie noch einmal.",
    changePassphrase: "Das neue nehmen",
    passphraseChanged: "Ab jetzt melden Sie sich mit dem neuen an. Ihre anderen Browser sind abgemeldet.",
    addTitle: "Jemanden eintragen",
    id: "Kürzel",
    idHint: "Bleibt im Hauptbuch und lässt sich nie löschen, also kein Name: bench-2, owner",
    name: "Name",
    nameHint: "Wie die anderen sagen",
    mayWhat: "Was erlaubt ist",
    firstPassphrase: "Das erste Kennwort",
    firstPassphraseHint: "Sagen Sie es weiter; geändert wird es auf dieser Seite",
    add: "Hereinlassen",
    added: (name) => `${name} kann sich jetzt anmelden.`,
    change: (name) => `Ändern, was hier von ${name} steht`,
    write: "Eintragen",
    changed: (name) => `${name} ist geändert.`,
    newPassphrase: "Ein neues Kennwort",
    give: "Vergeben",
    given: (name) => `${name} meldet sich mit dem neuen an und ist überall abgemeldet.`,
    endSessions: "Überall abmelden",
    endedSessions: (name) => `${name} ist überall abgemeldet.`,
    leave: "Nicht mehr hereinlassen",
    leaveNote: "Was getan wurde, bleibt unter dem Kürzel, der Name auch. Ein Recht lässt sich wieder geben.",
    left: (name) => `${name} darf nicht mehr herein.`,
    erase: "Den Namen löschen",
    eraseNote:
      "Für immer: Name und Kennwort verschwinden, was getan wurde, bleibt unter dem Kürzel. Anmelden geht dann nicht mehr.",
    eraseSure: "Ja, diesen Namen für immer löschen",
    copiesToo: "Auch die Kopien, die ihn enthalten, neu schreiben",
    erasePersonDone: (id) => `Der Name von ${id} ist gelöscht.`,
    noneTitle: "Hier meldet sich niemand an",
    none: "Wer an diesem Rechner sitzt, darf alles, und kein anderer Rechner kommt herein. Tragen Sie den Inhaber ein; von da an meldet sich jeder an. Sind Leute eingetragen, können auch andere Rechner herein.",
    firstTitle: "Den Inhaber eintragen",
    firstAdd: "Den Inhaber eintragen",
    customersWhat: "Die Kunden",
    customersLead:
      "Aufträge nennen einen Kunden nur mit einem Kürzel. Name und Anschrift stehen neben dem Hauptbuch und lassen sich löschen, wenn ein Kunde darum bittet; Hauptbuch und Geräteakten bleiben gültig.",
    findCustomer: "Nach Kennung, Name, Anschrift oder Auftrag suchen",
    customersFound: (count, all) => `${count} von ${all} Kunden`,
    customersNone: "Noch nennt kein Auftrag einen Kunden.",
    address: "Anschrift",
    orders: (orders, more) =>
      orders.length === 0
        ? "kein Auftrag"
        : `${orders.length + more === 1 ? "Auftrag" : "Aufträge"} ${liste(orders)}${more > 0 ? ` und ${more} weitere` : ""}`,
    noName: "kein Name hinterlegt",
    put: "Name und Anschrift",
    putDone: (id) => `${id} ist eingetragen.`,
    eraseCustomer: "Name und Anschrift löschen",
    eraseCustomerNote: "Für immer. Aufträge, Hauptbuch und Geräteakten bleiben, wie sie sind.",
    eraseCustomerSure: "Ja, für immer löschen",
    eraseCustomerDone: (id) =>
      `Name und Anschrift von ${id} sind aus der Datei der Werkstatt und ihrem Journal gelöscht.`,
    holding: (count) => (count === 1 ? "Eine Kopie enthält es noch:" : `${count} Kopien enthalten es noch:`),
    rewritten: (count) =>
      count === 1
        ? "Aus einer Kopie entfernt, die danach ganz gelesen wurde:"
        : `Aus ${count} Kopien entfernt, jede danach ganz gelesen:`,
    unread: (folder) => `Nicht nachgesehen: ${folder}`,
    rewrite: "Auch dort entfernen",
    alsoKeep:
      "Kopien auf anderen Platten, Sicherungen des ganzen Rechners, E-Mails und gedruckte Blätter sind von hier aus nicht zu sehen; sehen Sie auch dort nach.",
  },
};
