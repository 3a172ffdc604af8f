interface Props {
  readonly shops: readonly string[];
  readonly ticked: readonly string[];
  readonly onTick: (shops: string[]) => void;
}

/** The shops that changed; one that is ticked and no longer in the records stays to be unticked. */
export const ShopTicks = ({ shops, ticked, onTick }: Props) => (
  <fieldset className="choices">
    <legend>Shops that changed</legend>
    {[...new Set([...shops, ...ticked])].map((shop) => (
      <label key={shop}>
        <input
          type="checkbox"
          checked={ticked.includes(shop)}
          onChange={({ target }) => onTick(target.checked ? [...ticked, shop] : ticked.filter((own) => own !== shop))}
        />{' '}
        {shop}
      </label>
    ))}
  </fieldset>
);
