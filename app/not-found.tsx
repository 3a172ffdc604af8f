import Link from 'next/link';

export default function NotFound() {
  return (
    <section className="notice">
      <h1>There is no such page</h1>
      <p>
        The questions stand in the line above, or start <Link href="/">at a glance</Link>.
      </p>
    </section>
  );
}
