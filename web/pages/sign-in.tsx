// Signing in, where others than this machine can reach the service.

import { useState } from "preact/hooks";
import { ask, isSignInNeeded, sentenceOf } from "../ask.ts";
import { useTitle } from "../parts/going.tsx";
import { bench } from "../words.ts";

const roles = ["technician", "owner"] as const;

export function SignIn() {
  useTitle(bench.signIn.title);
  const [role, setRole] = useState<(typeof roles)[number]>("technician");
  const [password, setPassword] = useState("");
  const [problem, setProblem] = useState<string | null>(null);
  const submit = async (event: Event) => {
    event.preventDefault();
    try {
      await ask("POST /api/session", { body: { role, password } });
      isSignInNeeded.set(false);
    } catch (error) {
      setProblem(sentenceOf(error));
    }
  };
  return (
    <form onSubmit={submit}>
      <h1>{bench.signIn.title}</h1>
      <fieldset class="choice">
        <legend>{bench.signIn.who}</legend>
        {roles.map((one) => (
          <label key={one}>
            <input type="radio" name="role" checked={one === role} onChange={() => setRole(one)} />
            {bench.signIn.roles[one]}
          </label>
        ))}
      </fieldset>
      <label class="field">
        {bench.signIn.password}
        <input
          type="password"
          autoComplete="current-password"
          required
          value={password}
          onInput={(event) => setPassword(event.currentTarget.value)}
        />
      </label>
      <p role="alert">{problem}</p>
      <button type="submit" class="main">
        {bench.signIn.go}
      </button>
    </form>
  );
}
