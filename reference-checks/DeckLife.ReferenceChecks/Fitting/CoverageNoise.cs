namespace DeckLife.ReferenceChecks.Fitting;

/// <summary>The laboratory's error in the coverage study.</summary>
public enum CoverageNoise
{
    /// <summary>0.12 kg/m³ on every slice.</summary>
    Constant,

    /// <summary>8 % of the content, not below that of 2 % of Cs.</summary>
    Proportional,

    /// <summary>Both: 0.08 kg/m³ and 5 % of the content, variances added.</summary>
    Mixed,
}
