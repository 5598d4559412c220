using DeckLife.Quantities;

namespace DeckLife.Transport;

/// <summary>A diffusion coefficient that does not change.</summary>
/// <param name="Coefficient">D.</param>
public sealed record ConstantDiffusion(DiffusionCoefficient Coefficient) : DiffusionLaw
{
    /// <inheritdoc/>
    public override double ClockMm2(double ageAtStartYears, double exposureYears) =>
        Coefficient.SquareMillimetresPerYear * exposureYears;

    /// <inheritdoc/>
    public override double InstantaneousMm2PerYear(double ageAtStartYears, double exposureYears) =>
        Coefficient.SquareMillimetresPerYear;
}
