namespace DeckLife.Fitting;

/// <summary>Whether a Markov chain Monte Carlo run can be believed: the worst over all parameters.</summary>
/// <param name="SplitRhat">Largest split R-hat (1 when converged).</param>
/// <param name="EffectiveSampleSize">Smallest effective sample size.</param>
public sealed record ConvergenceSummary(double SplitRhat, double EffectiveSampleSize);
