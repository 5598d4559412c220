using DeckLife.Numerics.Sampling;

namespace DeckLife.Population;

/// <summary>What the deck's own surveys are taken to see: every number is an input, in the open.</summary>
public sealed record SurveyModel
{
    /// <summary>Whether the projection learns from the sounding and the half-cell survey.</summary>
    public bool Learn { get; init; } = true;

    /// <summary>Probability that sounding finds a damaged place. Where not stated: 0.9 (judgement, not a published value).</summary>
    public double DetectionProbability { get; init; } = 0.9;

    /// <summary>Relative error of the whole hollow area that sounding marks, where its areas have corners. Where not stated: 0.1 (judgement, not a published value).</summary>
    public double SoundingAreaError { get; init; } = 0.1;

    /// <summary>Mean potential over passive bars [mV CSE]. Where not stated: −207 (Lentz et al., as used by Faber and Sørensen, Structural Safety 24, 2002; memory).</summary>
    public double PassiveMeanMv { get; init; } = -207;

    /// <summary>Standard deviation of the potential over passive bars [mV]. Where not stated: 80.4 (same source; memory).</summary>
    public double PassiveSdMv { get; init; } = 80.4;

    /// <summary>Mean potential over active bars [mV CSE]. Where not stated: −354 (same source; memory).</summary>
    public double ActiveMeanMv { get; init; } = -354;

    /// <summary>Standard deviation of the potential over active bars [mV]. Where not stated: 69.7 (same source; memory).</summary>
    public double ActiveSdMv { get; init; } = 69.7;

    /// <summary>Distance over which places on the deck go together [m]; absent: estimated from the half-cell survey, else 1.5 m (judgement).</summary>
    public double? CorrelationLengthM { get; init; }

    /// <summary>
    /// Standard deviation of what the model itself gets wrong, as a shift of every share's normal score. Where not stated: 0.2 (judgement).
    /// Without it the threshold would absorb every fault of the model.
    /// </summary>
    public double ModelDiscrepancySd { get; init; } = 0.2;

    /// <summary>Share of active bars whose potential is more negative than a limit.</summary>
    /// <param name="limitMv">The limit [mV CSE].</param>
    public double ActiveShareBeyond(double limitMv) =>
        NormalQuantile.Probability((limitMv - ActiveMeanMv) / ActiveSdMv);

    /// <summary>Share of passive bars whose potential is more negative than a limit.</summary>
    /// <param name="limitMv">The limit [mV CSE].</param>
    public double PassiveShareBeyond(double limitMv) =>
        NormalQuantile.Probability((limitMv - PassiveMeanMv) / PassiveSdMv);
}
