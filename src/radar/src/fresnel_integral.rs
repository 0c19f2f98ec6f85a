//! The Fresnel integrals C and S.
