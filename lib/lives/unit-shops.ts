import { sql, type Statement } from '../engine/statement.ts';

/**
 * By which shop each unit is recorded (`unit_id, shop`): the home shops its rows of the units table name,
 * else the shop of most of its services.
 */
export const unitShops: Statement = sql`
with homes as (select distinct unit_id, home_shop as shop from fleet_unit_rows where home_shop is not null
), served as (
  select unit_id, shop from fleet_services where shop is not null and unit_id not in (select unit_id from homes)
  group by unit_id, shop qualify row_number() over (partition by unit_id order by count(*) desc, shop) = 1
)
select unit_id, shop from homes union all select unit_id, shop from served`;
