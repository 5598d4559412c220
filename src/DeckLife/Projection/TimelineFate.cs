namespace DeckLife.Projection;

/// <summary>What becomes of a bar from the time that it lies where it lies.</summary>
/// <param name="FromYr">Since when, from the survey [yr]; minus the exposure at the survey for the deck's own concrete.</param>
/// <param name="InitiationYr">When the content reaches the threshold [yr]; absent: not while the bar lies so.</param>
/// <param name="DamageYr">When that is damage [yr]; absent: not while the bar lies so.</param>
public sealed record TimelineFate(double FromYr, double? InitiationYr, double? DamageYr);
