namespace DeckLife.Fitting;

/// <summary>Where a chain of a deck fit stands: the parameters of the deck and of its cores.</summary>
/// <param name="cores">Number of cores.</param>
/// <param name="coefficients">Number of coefficients of the means.</param>
internal sealed class DeckChainState(int cores, int coefficients)
{
    /// <summary>ln(Cs / (kg/m³)) of each core.</summary>
    public double[] LnSurface { get; } = new double[cores];

    /// <summary>ln(D / (mm²/yr)) of each core, at its own age.</summary>
    public double[] LnDiffusion { get; } = new double[cores];

    /// <summary>Means of (ln Cs, ln D) at the reference age; then the shifts of targeted cores.</summary>
    public double[] Means { get; } = new double[coefficients];

    /// <summary>ln of the standard deviation between cores of ln Cs.</summary>
    public double LnSdSurface { get; set; }

    /// <summary>ln of the standard deviation between cores of ln D.</summary>
    public double LnSdDiffusion { get; set; }

    /// <summary>artanh of the correlation between cores.</summary>
    public double ArtanhCorrelation { get; set; }

    /// <summary>Background [kg/m³].</summary>
    public double Background { get; set; }

    /// <summary>The deck's error: standard deviation [kg/m³], share of the content, or factor on the given ones.</summary>
    public double Error { get; set; }

    /// <summary>Ageing exponent.</summary>
    public double AgeingExponent { get; set; }
}
