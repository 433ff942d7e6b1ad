import { BadInput } from "../maths/badInput.ts";
import { localToken } from "./localToken.ts";

/** A server that has a folder open, as a command of this machine reaches it. */
export interface Reached {
  readonly address: string;
  readonly folder: string;
}

interface Sent {
  readonly method: string;
  readonly body?: BodyInit;
  readonly type?: string;
}

/**
 * Asks the server as whoever may read the data folder.
 *
 * @throws BadInput  in the server's own words
 */
export async function askServer<T>({ address, folder }: Reached, path: string, sent?: Sent): Promise<T> {
  const token = localToken(folder);
  const headers = {
    ...(token !== undefined && { authorization: `Bearer ${token}` }),
    ...(sent?.body !== undefined && { "content-type": sent.type ?? "application/json" }),
  };
  const body = sent?.body === undefined ? {} : { body: sent.body };
  const response = await fetch(new URL(path, address), { method: sent?.method ?? "GET", headers, ...body });
  const answer = (await response.json()) as { error?: { path: string; message: string } };
  if (!answer.error) return answer as T;
  const fault = Object.assign(new BadInput("", "", "", ""), { message: answer.error.message });
  throw BadInput.at(answer.error.path, fault);
}
