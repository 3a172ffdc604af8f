/** Lets whoever wants to cancel be heard between two pieces of long work; throws once they have. */
export async function breathe(signal: AbortSignal | undefined): Promise<void> {
  await new Promise<void>((resume) => setTimeout(resume, 0));
  signal?.throwIfAborted();
}
