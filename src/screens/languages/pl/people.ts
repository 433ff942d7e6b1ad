import type { Words } from "../catalogue.ts";
import { ile } from "./forms/ile.ts";

const lista = (nazwy: readonly string[]) => nazwy.join(", ");

/** The people here and the customers in Polish. */
export const said: Words<"people"> = {
  words: {
    signOutEverywhere: "Wyloguj mnie w każdej przeglądarce",
    what: "Ludzie warsztatu",
    title: "Ludzie w warsztacie",
    lead: "Każdy działa pod skrótem, który zostaje w księdze na zawsze. Imiona stoją obok i można je usunąć.",
    you: "Ty",
    rights: { nothing: "odszedł", look: "ogląda", measure: "mierzy", release: "zwalnia", owner: "właściciel" },
    may: {
      nothing: "nie ma już wstępu",
      look: "może oglądać",
      measure: "może oglądać i mierzyć",
      release: "może oglądać, mierzyć i zwalniać",
      owner: "może wszystko i wpisuje ludzi",
    },
    rightHints: {
      look: "widzi wszystko i zleca obliczenia",
      measure: "wpisuje odczyty, nagrania i czynności",
      release: "ponadto wydaje urządzenia, podaje terminy, ustala modele i granice lamp",
      owner: "ponadto udziela zgody na odstępstwo, wpisuje ludzi i usuwa dane",
    },
    answers: "Osoba z uprawnieniami, odpowiada za granice bezpieczeństwa",
    answersHint: "Tylko kto ma ten znak, przyjmuje granice prób bezpieczeństwa.",
    answersShort: "odpowiada za granice bezpieczeństwa",
    here: (count) =>
      count === 0
        ? "nigdzie nie zalogowano"
        : `zalogowano w ${ile(count, "przeglądarce", "przeglądarkach", "przeglądarkach")}`,
    erasedName: "imię usunięte",
    ownPassphrase: "Nowe własne hasło",
    present: "Obecne",
    next: "Nowe",
    nextHint: "Co najmniej 12 znaków; cztery słowa, których nikt nie zgadnie",
    again: "To samo jeszcze raz",
    differ: "Hasła różnią się. Wpisz je jeszcze raz.",
    changePassphrase: "Przyjmij nowe",
    passphraseChanged: "Od teraz obowiązuje nowe hasło. W innych przeglądarkach nastąpiło wylogowanie.",
    addTitle: "Wpisz osobę",
    id: "Skrót",
    idHint: "Zostaje w księdze i nie da się go usunąć, więc nie imię: bench-2, owner",
    name: "Imię",
    nameHint: "Jak mówią inni",
    mayWhat: "Co wolno",
    firstPassphrase: "Pierwsze hasło",
    firstPassphraseHint: "Przekaż je tej osobie; zmieni je na tej stronie",
    add: "Daj wstęp",
    added: (name) => `${name} może się teraz zalogować.`,
    change: (name) => `Zmień, co tu stoi o: ${name}`,
    write: "Wpisz",
    changed: (name) => `Zmieniono: ${name}.`,
    newPassphrase: "Nowe hasło dla tej osoby",
    give: "Nadaj",
    given: (name) => `${name} loguje się nowym hasłem, a dotychczasowe logowania zakończono.`,
    endSessions: "Wyloguj wszędzie",
    endedSessions: (name) => `${name}: wylogowano wszędzie.`,
    leave: "Nie wpuszczaj więcej",
    leaveNote: "To, co zrobiono, zostaje pod skrótem, imię także. Prawo można nadać ponownie.",
    left: (name) => `${name} nie ma już wstępu.`,
    erase: "Usuń imię",
    eraseNote: "Na zawsze: znika imię i hasło, a to, co zrobiono, zostaje pod skrótem. Zalogować się już nie można.",
    eraseSure: "Tak, usuń to imię na zawsze",
    copiesToo: "Przepisz bez niego także kopie, które je zawierają",
    erasePersonDone: (id) => `Imię osoby ${id} usunięto.`,
    noneTitle: "Nikt się tu nie loguje",
    none: "Kto siedzi przy tym komputerze, może wszystko, a żaden inny komputer nie ma wstępu. Wpisz właściciela, a odtąd każdy się loguje; gdy są wpisani ludzie, można wpuścić także inne komputery.",
    firstTitle: "Wpisz właściciela",
    firstAdd: "Wpisz właściciela",
    customersWhat: "Klienci",
    customersLead:
      "Zamówienia wymieniają klienta tylko skrótem. Nazwisko i adres stoją obok księgi i można je usunąć na prośbę klienta; księga i karty urządzeń pozostają ważne.",
    findCustomer: "Szukaj po skrócie, nazwisku, adresie lub zamówieniu",
    customersFound: (count, all) => `${count} z ${all} klientów`,
    customersNone: "Żadne zamówienie nie wymienia jeszcze klienta.",
    address: "Adres",
    orders: (orders, more) =>
      orders.length === 0
        ? "bez zamówienia"
        : `${orders.length + more === 1 ? "zamówienie" : "zamówienia"} ${lista(orders)}${more > 0 ? ` i jeszcze ${more}` : ""}`,
    noName: "bez nazwiska",
    put: "Nazwisko i adres",
    putDone: (id) => `Wpisano: ${id}.`,
    eraseCustomer: "Usuń nazwisko i adres",
    eraseCustomerNote: "Na zawsze. Zamówienia, księga i karty urządzeń pozostają bez zmian.",
    eraseCustomerSure: "Tak, usuń na zawsze",
    eraseCustomerDone: (id) => `Nazwisko i adres klienta ${id} usunięto z pliku warsztatu i z jego dziennika.`,
    holding: (count) =>
      count === 1 ? "Zawiera je jeszcze jedna kopia:" : `Zawiera je jeszcze ${ile(count, "kopia", "kopie", "kopii")}:`,
    rewritten: (count) =>
      count === 1
        ? "Usunięto z jednej kopii, którą potem odczytano w całości:"
        : `Usunięto z ${count} kopii, każdą odczytano potem w całości:`,
    unread: (folder) => `Nie sprawdzono: ${folder}`,
    rewrite: "Usuń także stamtąd",
    alsoKeep:
      "Kopii na innych dyskach, kopii całego komputera, listów i wydrukowanych kart stąd nie widać; zajrzyj także tam.",
  },
};
