//! Upright and tilted cylinders: columns, drums, posts.
