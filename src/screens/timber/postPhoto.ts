import { Trouble } from "../common/api.ts";
import { toldRefusal } from "../languages/sentences/told.ts";
import { forms } from "./formMessages.ts";

/** Hands a photo in; it is kept by its content, and its hash names it. */
export async function postPhoto(photo: Blob): Promise<string> {
  const response = await fetch("/api/photos", {
    method: "POST",
    headers: { "content-type": photo.type || "image/jpeg" },
    body: photo,
  });
  const answer = (await response.json()) as { photo_sha256?: string; error?: { message: string; path: string } };
  if (response.ok && answer.photo_sha256 !== undefined) return answer.photo_sha256;
  const said = answer.error ? await toldRefusal(answer.error.message) : forms.flaw.noPhoto;
  throw new Trouble(said, answer.error?.path ?? "photo", response.status);
}
