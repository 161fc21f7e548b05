//! How points and figures are written in a plan file.

/// A point as `(x, y)`.
pub(crate) mod point {
    use geometry::Point;
    use serde::{Deserialize, Deserializer, Serialize, Serializer};

    pub(crate) fn serialize<S: Serializer>(point: &Point, out: S) -> Result<S::Ok, S::Error> {
        (point.x, point.y).serialize(out)
    }

    pub(crate) fn deserialize<'de, D: Deserializer<'de>>(input: D) -> Result<Point, D::Error> {
        <(f64, f64)>::deserialize(input).map(|(x, y)| Point::new(x, y))
    }
}

/// Points as `[(x, y), …]`.
pub(crate) mod points {
    use geometry::Point;
    use serde::{Deserialize, Deserializer, Serializer};

    pub(crate) fn serialize<S: Serializer>(points: &[Point], out: S) -> Result<S::Ok, S::Error> {
        out.collect_seq(points.iter().map(|p| (p.x, p.y)))
    }

    pub(crate) fn deserialize<'de, D: Deserializer<'de>>(input: D) -> Result<Vec<Point>, D::Error> {
        let pairs = Vec::<(f64, f64)>::deserialize(input)?;
        Ok(pairs.into_iter().map(|(x, y)| Point::new(x, y)).collect())
    }
}

/// Figures of a bend by their names, `[Radius, Sweep]`.
pub(crate) mod figures {
    use geometry::Figure;
    use serde::{Deserialize, Deserializer, Serialize, Serializer};

    #[derive(Serialize, Deserialize)]
    #[serde(remote = "Figure")]
    enum Named {
        Chord,
        Rise,
        Radius,
        ArcLength,
        Sweep,
        Apothem,
        TangentLength,
        ExternalDistance,
    }

    pub(crate) fn serialize<S: Serializer>(figures: &[Figure], out: S) -> Result<S::Ok, S::Error> {
        out.collect_seq(figures.iter().map(|figure| ByName(*figure)))
    }

    pub(crate) fn deserialize<'de, D: Deserializer<'de>>(
        input: D,
    ) -> Result<Vec<Figure>, D::Error> {
        Ok(Vec::<ByName>::deserialize(input)?
            .into_iter()
            .map(|named| named.0)
            .collect())
    }

    /// Written as the bare name, without a wrapper of its own.
    struct ByName(Figure);

    impl Serialize for ByName {
        fn serialize<S: Serializer>(&self, out: S) -> Result<S::Ok, S::Error> {
            Named::serialize(&self.0, out)
        }
    }

    impl<'de> Deserialize<'de> for ByName {
        fn deserialize<D: Deserializer<'de>>(input: D) -> Result<Self, D::Error> {
            Named::deserialize(input).map(ByName)
        }
    }
}
