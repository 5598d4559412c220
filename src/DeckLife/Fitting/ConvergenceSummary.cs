namespace DeckLife.Fitting;

/// <summary>Whether a Markov chain Monte Carlo run can be believed: the worst over all parameters.</summary>
/// <param name="SplitRhat">Largest rank-normalised split R-hat (1 when converged).</param>
/// <param name="EffectiveSampleSize">Smallest bulk effective sample size.</param>
public sealed record ConvergenceSummary(double SplitRhat, double EffectiveSampleSize)
{
    /// <summary>Smallest tail effective sample size: that of the 5 % and 95 % quantiles.</summary>
    public double? TailEffectiveSampleSize { get; init; }

    /// <summary>Number of chains.</summary>
    public int Chains { get; init; }

    /// <summary>Draws kept of each chain.</summary>
    public int DrawsPerChain { get; init; }
}
