//! The price floor: what an offer costs its maker, by the maker's own rates.
//!
//! In: [`Costs`], each left empty where shop.toml is silent. Out: [`Floor`]: the parts, the floor, what the price leaves above it, and which rates lack.
//!
//! floor = (sheet price × (1 + waste) ÷ boards + pack + extras + (laser + painting + handling minutes) × hourly rate) ÷ (1 − fees), rounded up to the
//! currency's smallest unit. Own formula of the shop's program, no source; taxes, rent and the machine itself are not in it, and the sheet says so.
//! Never here: a published figure.

use crate::units::Money;

/// What goes into the floor of one offer.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Costs {
    /// Of one stock sheet.
    pub sheet_price: Option<Money>,
    /// Percent of the sheet's price that spoilt boards cost; nothing where it lacks.
    pub waste_percent: Option<f64>,
    /// Boards that a sheet gives; none where it is not known, or where none fits.
    pub boards: Option<usize>,
    /// Price of the pack; `None` where the offer has none.
    pub pack: Option<Pack>,
    /// Of what goes along.
    pub extras: Option<Money>,
    /// Minutes under the laser.
    pub laser_minutes: Option<f64>,
    /// Minutes of painting; `None` only where it would be needed and lacks.
    pub painting_minutes: Option<f64>,
    /// Minutes of sanding, oiling, packing.
    pub handling_minutes: Option<f64>,
    /// For an hour of any of these.
    pub hourly_rate: Option<Money>,
    /// Percent of the price that sellers' places and payment take; nothing where it lacks.
    pub fees_percent: Option<f64>,
}

/// The pack of an offer; its price may lack.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pack {
    /// Price in shop.toml.
    pub price: Option<Money>,
}

/// The parts in minor units, unrounded, and the floor.
#[derive(Clone, Debug, PartialEq)]
pub struct Floor {
    /// Wood, waste included.
    pub wood_minor: f64,
    /// Pack.
    pub pack_minor: f64,
    /// What goes along.
    pub extras_minor: f64,
    /// Minutes in all.
    pub minutes: f64,
    /// Time at the hourly rate.
    pub time_minor: f64,
    /// What the fees take of the floor.
    pub fees_minor: f64,
    /// The floor, rounded up; `None` where fees of 100 percent and more leave none.
    pub floor: Option<Money>,
    /// Price less floor; negative where the price does not cover it.
    pub above: Option<Money>,
    /// What lacks, by its key in shop.toml; what it stands for is not in the floor.
    pub lacking: Vec<&'static str>,
}

/// Works the floor of an offer out.
pub fn floor(costs: &Costs, price: Money) -> Floor {
    let mut lacking = Vec::new();
    let minor = |m: Money| m.minor as f64;
    let mut known = |value: Option<f64>, key: &'static str| {
        if value.is_none() {
            lacking.push(key);
        }
        value.unwrap_or(0.0)
    };
    let sheet = known(costs.sheet_price.map(minor), "sheet_price");
    let no_sheet = if costs.boards == Some(0) { "a sheet that the board goes on" } else { "sheet" };
    let boards = known(costs.boards.filter(|b| *b > 0).map(|b| b as f64), no_sheet);
    let waste = costs.waste_percent.unwrap_or(0.0) / 100.0;
    let wood_minor = if boards > 0.0 { sheet * (1.0 + waste) / boards } else { 0.0 };
    let pack_minor = costs.pack.map_or(0.0, |pack| known(pack.price.map(minor), "[[pack]] price"));
    let extras_minor = known(costs.extras.map(minor), "extras_price");
    let minutes = known(costs.laser_minutes, "cut_speed, score_speed, travel_speed")
        + known(costs.painting_minutes, "painting_minutes_per_100_cm2")
        + known(costs.handling_minutes, "handling_minutes");
    let time_minor = minutes * known(costs.hourly_rate.map(minor), "hourly_rate") / 60.0;
    let sum = wood_minor + pack_minor + extras_minor + time_minor;
    let kept = 1.0 - costs.fees_percent.unwrap_or(0.0) / 100.0;
    let whole = (kept > 0.0).then(|| sum / kept);
    let floor = whole.and_then(|whole| {
        // A millionth of a cent is rounding in the sum, not a cent to pay.
        let up = (whole - 1e-6).ceil();
        (up < 9e15).then_some(Money { minor: up as i64, decimals: price.decimals })
    });
    Floor {
        wood_minor,
        pack_minor,
        extras_minor,
        minutes,
        time_minor,
        fees_minor: whole.map_or(0.0, |whole| whole - sum),
        above: floor.map(|f| Money { minor: price.minor.saturating_sub(f.minor), decimals: price.decimals }),
        floor,
        lacking,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn euro(minor: i64) -> Option<Money> {
        Some(Money { minor, decimals: 2 })
    }

    fn costs() -> Costs {
        Costs {
            sheet_price: euro(1180),
            waste_percent: Some(8.0),
            boards: Some(3),
            pack: Some(Pack { price: euro(165) }),
            extras: euro(240),
            laser_minutes: Some(15.5),
            painting_minutes: Some(72.0),
            handling_minutes: Some(30.0),
            hourly_rate: euro(2600),
            fees_percent: Some(5.0),
        }
    }

    /// On paper: wood 11.80 × 1.08 ÷ 3 = 4.248; pack 1.65; extras 2.40; time 117.5 min × 26.00 ÷ 60 = 50.9166…; together 59.2146…;
    /// over 0.95: 62.3312…, so 62.34 at the least. Of 76.00 that leaves 13.66.
    #[test]
    fn the_floor_is_what_it_is_on_paper() {
        let found = floor(&costs(), Money { minor: 7600, decimals: 2 });
        assert!((found.wood_minor - 424.8).abs() < 1e-9 && (found.minutes - 117.5).abs() < 1e-12);
        assert!((found.time_minor - 5_091.666_666_7).abs() < 1e-6);
        assert!((found.fees_minor - 311.656_140_4).abs() < 1e-6, "{}", found.fees_minor);
        assert_eq!((found.floor, found.above), (euro(6234), euro(1366)));
        assert!(found.lacking.is_empty());
    }

    #[test]
    fn a_price_below_the_floor_leaves_less_than_nothing() {
        assert_eq!(floor(&costs(), Money { minor: 6000, decimals: 2 }).above, euro(-234));
    }

    /// A floor that comes out even is not rounded up: 3.00 ÷ (1 − 0.25) = 4.00.
    #[test]
    fn an_even_floor_stays() {
        let only = Costs {
            extras: euro(300),
            fees_percent: Some(25.0),
            sheet_price: euro(0),
            boards: Some(1),
            laser_minutes: Some(0.0),
            painting_minutes: Some(0.0),
            handling_minutes: Some(0.0),
            hourly_rate: euro(0),
            ..Costs::default()
        };
        let found = floor(&only, Money { minor: 500, decimals: 2 });
        assert_eq!((found.floor, found.lacking.len()), (euro(400), 0));
    }

    #[test]
    fn what_lacks_is_named_and_not_guessed() {
        let found =
            floor(&Costs { pack: Some(Pack { price: None }), ..Costs::default() }, Money { minor: 1, decimals: 2 });
        assert_eq!(found.floor, euro(0));
        assert_eq!(found.lacking.len(), 8, "{:?}", found.lacking);
        let all = floor(&Costs { fees_percent: Some(100.0), ..costs() }, Money { minor: 1, decimals: 2 });
        assert_eq!((all.floor, all.above), (None, None));
    }
}
