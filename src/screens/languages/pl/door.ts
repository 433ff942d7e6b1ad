import type { Words } from "../catalogue.ts";

const lista = (nazwy: readonly string[]) => nazwy.join(", ");

/** The way in in Polish. */
export const said: Words<"door"> = {
  door: {
    signIn: "Zaloguj się",
    signInLead: "Ten warsztat jest dla swoich ludzi. Po zalogowaniu wszystko, co wpiszesz, stoi pod tobą.",
    signedOutTitle: "W międzyczasie nastąpiło wylogowanie",
    signedOut: "To, co było wpisane, leży nadal za tą kartką. Zaloguj się ponownie i pracuj dalej od tego miejsca.",
    person: "Kto się loguje",
    personHint: "Tak, jak wpisał cię właściciel, na przykład bench-2",
    passphrase: "Hasło",
    show: "Pokaż, co wpisuję",
    signingIn: "Sprawdzanie …",
    forgotten: "Hasło zapomniane? Właściciel może nadać nowe.",
    needed: "To jest potrzebne.",
    as: (name) => `Zalogowano: ${name}`,
    yours: "Ty i ludzie w warsztacie",
    letIn: "Kto ma wstęp",
    signOut: "Wyloguj się",
    customers: "Klienci",
    notYours: {
      measure: (able) => `Możesz oglądać. Wpisywać mogą: ${lista(able)}.`,
      release: (able) => `To należy do osób, które zwalniają: ${lista(able)}.`,
      owner: (able) => `To należy do właściciela: ${lista(able)}.`,
      safety: (able) =>
        able.length === 0
          ? "Granice bezpieczeństwa przyjmuje osoba z uprawnieniami, która za nie odpowiada, a nikt nie jest tu tak oznaczony. Może to zrobić właściciel."
          : `Granice bezpieczeństwa przyjmuje osoba z uprawnieniami, która za nie odpowiada: ${lista(able)}.`,
    },
  },
};
