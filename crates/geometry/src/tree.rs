//! A tree of boxes over runs of ever more things in a row.

use std::ops::Range;

use crate::Bounds;

/// Boxes round all things, each half of them, each quarter, and so on: each before its two halves.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Tree {
    boxes: Vec<Bounds>,
    leaves: usize,
}

/// One run of things, and where its box stands.
#[derive(Clone, Debug)]
pub(crate) struct Run {
    pub(crate) at: usize,
    pub(crate) things: Range<usize>,
}

impl Run {
    pub(crate) fn is_leaf(&self) -> bool {
        self.things.len() == 1
    }

    /// Its two halves; it is no leaf.
    pub(crate) fn halves(&self) -> (Self, Self) {
        let middle = middle(&self.things);
        let first = Self {
            at: self.at + 1,
            things: self.things.start..middle,
        };
        let second = Self {
            // A run of n things takes up 2n − 1 boxes.
            at: self.at + 2 * first.things.len(),
            things: middle..self.things.end,
        };
        (first, second)
    }
}

fn middle(things: &Range<usize>) -> usize {
    things.start + things.len() / 2
}

impl Tree {
    /// The tree over things with these boxes, in their order.
    pub(crate) fn over(leaves: &[Bounds]) -> Self {
        let mut boxes = Vec::with_capacity(2 * leaves.len());
        if !leaves.is_empty() {
            Self::build(leaves, &mut boxes);
        }
        Self {
            boxes,
            leaves: leaves.len(),
        }
    }

    fn build(leaves: &[Bounds], boxes: &mut Vec<Bounds>) -> Bounds {
        let at = boxes.len();
        boxes.push(leaves[0]);
        if leaves.len() > 1 {
            let (first, second) = leaves.split_at(middle(&(0..leaves.len())));
            boxes[at] = Self::build(first, boxes).with(Self::build(second, boxes));
        }
        boxes[at]
    }

    /// The run of all things; `None` when there are none.
    pub(crate) fn root(&self) -> Option<Run> {
        (self.leaves > 0).then_some(Run {
            at: 0,
            things: 0..self.leaves,
        })
    }

    pub(crate) fn bounds(&self, run: &Run) -> &Bounds {
        &self.boxes[run.at]
    }

    /// Tells of every thing whose box, and whose runs' boxes, are wanted.
    pub(crate) fn visit(&self, wanted: &impl Fn(&Bounds) -> bool, tell: &mut impl FnMut(usize)) {
        if let Some(root) = self.root() {
            self.visit_run(&root, wanted, tell);
        }
    }

    fn visit_run(
        &self,
        run: &Run,
        wanted: &impl Fn(&Bounds) -> bool,
        tell: &mut impl FnMut(usize),
    ) {
        if !wanted(self.bounds(run)) {
            return;
        }
        if run.is_leaf() {
            tell(run.things.start);
        } else {
            let (first, second) = run.halves();
            self.visit_run(&first, wanted, tell);
            self.visit_run(&second, wanted, tell);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Point;

    #[test]
    fn every_box_holds_the_boxes_of_its_halves() {
        let points: Vec<Point> = (0..37)
            .map(|i| Point::new(f64::from(i * 29 % 37), f64::from(i * 11 % 41)))
            .collect();
        let leaves: Vec<Bounds> = points.iter().map(|p| Bounds::of(*p)).collect();
        let tree = Tree::over(&leaves);
        assert_eq!(tree.boxes.len(), 2 * leaves.len() - 1);
        let mut runs = vec![tree.root().unwrap()];
        let mut seen = 0;
        while let Some(run) = runs.pop() {
            let hull = Bounds::around(points[run.things.clone()].iter().copied()).unwrap();
            assert_eq!(*tree.bounds(&run), hull);
            if run.is_leaf() {
                seen += 1;
            } else {
                let (first, second) = run.halves();
                runs.extend([first, second]);
            }
        }
        assert_eq!(seen, leaves.len());
        let mut told = Vec::new();
        let low = Bounds::of(Point::ORIGIN).grown(12.5);
        tree.visit(&|b| b.meets(low), &mut |i| told.push(i));
        let meant: Vec<usize> = (0..37).filter(|i| leaves[*i].meets(low)).collect();
        assert!(told.len() > 3);
        assert_eq!(told, meant);
        assert!(Tree::over(&[]).root().is_none());
    }
}
