using DeckLife.Rehabilitation;

namespace DeckLife.Projection;

/// <summary>An intervention with the date that it gets in one draw.</summary>
/// <param name="Number">Its place in the plan.</param>
/// <param name="Intervention">The intervention.</param>
/// <param name="AtYr">When, from the survey [yr].</param>
/// <param name="OwnEndYr">When what it covers the deck with ends by itself [yr]; infinite where it does not, or covers nothing.</param>
/// <param name="ProtectionEndYr">When its protection ends [yr]; infinite where there is none.</param>
internal sealed record ScheduledWork(
    int Number,
    PlannedIntervention Intervention,
    double AtYr,
    double OwnEndYr,
    double ProtectionEndYr
);
