//! TODO
use super::boxes::Tree;
use super::strands::{Span, Strands};
use super::Near;
use crate::findings::Finding;
pub(super) struct Laid { pub moved: bool, pub findings: Vec<Finding> }
pub(super) fn lay_together(_s: &mut Strands, _spans: &[Span], _t: &Tree, _n: Near) -> Laid { Laid { moved: false, findings: vec![] } }
