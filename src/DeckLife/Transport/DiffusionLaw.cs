namespace DeckLife.Transport;

/// <summary>How a layer's diffusion coefficient depends on time. The two ageing laws are different types: their exponents must never be confused.</summary>
public abstract record DiffusionLaw
{
    private protected DiffusionLaw() { }

    /// <summary>The clock s = ∫ D dt [mm²] from the start of the layer's exposure, at constant reference temperature.</summary>
    /// <param name="ageAtStartYears">Age of the layer's concrete when its exposure starts [yr]; laws that do not count age ignore it.</param>
    /// <param name="exposureYears">Exposure time [yr], at least 0.</param>
    public abstract double ClockMm2(double ageAtStartYears, double exposureYears);

    /// <summary>The instantaneous coefficient [mm²/yr] at an exposure time.</summary>
    /// <param name="ageAtStartYears">Age of the layer's concrete when its exposure starts [yr].</param>
    /// <param name="exposureYears">Exposure time [yr], greater than 0.</param>
    public abstract double InstantaneousMm2PerYear(double ageAtStartYears, double exposureYears);

    /// <summary>The same law without ageing, held at the coefficient it has at a moment: the bound that every projection shows.</summary>
    /// <param name="ageAtStartYears">Age of the layer's concrete when its exposure starts [yr].</param>
    /// <param name="exposureYears">The moment, as exposure time [yr], greater than 0.</param>
    public ConstantDiffusion WithoutAgeing(double ageAtStartYears, double exposureYears) =>
        new(
            Quantities.DiffusionCoefficient.FromSquareMillimetresPerYear(
                InstantaneousMm2PerYear(ageAtStartYears, exposureYears)
            )
        );
}
