namespace DeckLife.Numerics.Kernels;

/// <summary>Constants of the two-stage L-stable diagonally implicit scheme and of the mass rows.</summary>
/// <remarks>
/// Source: Alexander, SIAM Journal on Numerical Analysis 14 (1977) 1006-1021, the two-stage scheme with γ = 1 - 1/√2;
/// mass rows (1, 10, 1)/12: the compact fourth-order difference (Numerov), and (1, 2)/6 of linear elements at the ends of segments.
/// </remarks>
internal static class SteppingConstants
{
    /// <summary>γ.</summary>
    public const double Gamma = 0.29289321881345247560;

    /// <summary>(1 - γ)/γ.</summary>
    public const double Rho = 2.4142135623730950488;

    /// <summary>Share of a cell's length that couples neighbours inside a segment.</summary>
    public const double InnerCoupling = 1.0 / 12;

    /// <summary>Share of a cell's length that couples neighbours in the row of a segment's end.</summary>
    public const double EndCoupling = 1.0 / 6;
}
