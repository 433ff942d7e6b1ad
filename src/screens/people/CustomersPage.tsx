import { keepPreviousData, useQuery } from "@tanstack/react-query";
import { type FormEvent, useId, useState } from "react";
import type { CustomersView, CustomerView, ErasureView } from "../../workshop/people/views.ts";
import { get, post } from "../common/api.ts";
import { FirstSteps } from "../common/FirstSteps.tsx";
import { Field, FormEnd } from "../common/fields.tsx";
import { useSending } from "../common/useSending.ts";
import { Answer } from "../common/Waiting.tsx";
import { door } from "./doorMessages.ts";
import { EraseForm } from "./EraseForm.tsx";
import { words } from "./messages.ts";
import { NotYours } from "./NotYours.tsx";
import { RegisterLine } from "./RegisterLine.tsx";
import "./people.css";
import { useMay } from "./session.ts";

/** Names and addresses, which stand beside the ledger and can be erased. */
export default function CustomersPage() {
  const { may } = useMay("release");
  const asked = useQuery({
    queryKey: ["/api/customers"],
    queryFn: () => get<CustomersView>("/api/customers"),
    enabled: may,
  });
  if (!may) return <NotYours need="release" />;
  return (
    <Answer asked={asked} what={words.customersWhat}>
      {(view) => <Customers {...view} />}
    </Answer>
  );
}

/** Who ordered last, any other by a word of them. */
export function Customers({ customers, inAll }: CustomersView) {
  const [typed, setTyped] = useState("");
  const sought = typed.trim();
  const areAll = customers.length === inAll;
  const asked = useQuery({
    queryKey: ["/api/customers", sought],
    queryFn: () => get<CustomersView>(`/api/customers?find=${encodeURIComponent(sought)}`),
    enabled: sought !== "" && !areAll,
    placeholderData: keepPreviousData,
  });
  const shown = sought !== "" && asked.data ? asked.data : { customers, inAll };
  return (
    <article className="customers">
      <h1>{door.customers}</h1>
      <p className="lead">{words.customersLead}</p>
      {customers.length === 0 ? (
        <div className="empty">
          <p>{words.customersNone}</p>
          <FirstSteps />
        </div>
      ) : (
        <>
          {!areAll && (
            <>
              <Field label={words.findCustomer} value={typed} onChange={setTyped} narrow />
              <p className="quiet" role="status">
                {words.customersFound(shown.customers.length, shown.inAll)}
              </p>
            </>
          )}
          <ul className="people-register">
            {shown.customers.map((one) => (
              <CustomerLine key={one.customer} one={one} />
            ))}
          </ul>
        </>
      )}
    </article>
  );
}

function CustomerLine({ one }: { readonly one: CustomerView }) {
  const { may } = useMay("owner");
  return (
    <RegisterLine
      level="h2"
      name={one.name ?? words.noName}
      number={one.customer}
      here={words.orders(one.orders.slice(0, 6), Math.max(0, one.orders.length - 6))}
      change={words.put}
      erase={(copies) => eraseCustomer(one.customer, copies)}
      erased={words.eraseCustomerDone(one.customer)}
      desk={(erase) => (
        <>
          <PutForm key={`${one.name} ${one.address}`} one={one} />
          {one.name !== undefined &&
            (may ? (
              <EraseForm
                note={words.eraseCustomerNote}
                sure={words.eraseCustomerSure}
                button={words.eraseCustomer}
                erase={erase}
              />
            ) : (
              <NotYours need="owner" />
            ))}
        </>
      )}
    >
      {one.address && <p className="customer-address">{one.address}</p>}
    </RegisterLine>
  );
}

function PutForm({ one }: { readonly one: CustomerView }) {
  const id = useId();
  const [name, setName] = useState(one.name ?? "");
  const [address, setAddress] = useState(one.address ?? "");
  const [tried, setTried] = useState(false);
  const sending = useSending();
  const submit = (event: FormEvent) => {
    event.preventDefault();
    setTried(true);
    if (name.trim() === "" || address.trim() === "") return;
    void sending.send(async () => {
      await post(`/api/customers/${encodeURIComponent(one.customer)}`, { name, address });
      return words.putDone(one.customer);
    });
  };
  return (
    <form className="desk-form" onSubmit={submit} noValidate>
      <div className="fields">
        <Field
          label={words.name}
          value={name}
          onChange={setName}
          {...(tried && name.trim() === "" && { error: door.needed })}
        />
        <div className="field">
          <label htmlFor={id}>{words.address}</label>
          <textarea id={id} rows={2} value={address} onChange={({ target }) => setAddress(target.value)} />
          {tried && address.trim() === "" && <span className="field-error">{door.needed}</span>}
        </div>
      </div>
      <FormEnd write={words.write} sending={sending} />
    </form>
  );
}

const eraseCustomer = (customer: string, copies: boolean) =>
  post<ErasureView>(`/api/customers/${encodeURIComponent(customer)}/erase`, { copies });
