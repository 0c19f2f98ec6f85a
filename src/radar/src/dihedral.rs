//! Two flat faces that meet at a right angle.
