using System.Collections.Immutable;
using DeckLife.Fitting;
using DeckLife.Profiles;
using DeckLife.Projection;
using DeckLife.Reporting.Charts;

namespace DeckLife.Reporting.Sections;

/// <summary>How the library's objects show themselves when a notebook's cell ends with one.</summary>
public static class DomainParts
{
    /// <summary>A profile before it is fitted: its chart.</summary>
    /// <param name="profile">The profile.</param>
    public static IReportPart Of(CoreProfile profile) => ProfileChart.Measured(profile);

    /// <summary>A fit: its chart and its estimates.</summary>
    /// <param name="fit">The fit.</param>
    public static IReportPart Of(ProfileFit fit)
    {
        ArgumentNullException.ThrowIfNull(fit);
        return new PartList([ProfileChart.Draw(fit), new DataQuality([fit], fit.Flags).Cores()]);
    }

    /// <summary>Fits of several cores: their charts on the same axes, and their estimates.</summary>
    /// <param name="fits">The fits.</param>
    public static IReportPart Of(ImmutableArray<ProfileFit> fits) =>
        new PartList([new ProfileGallery(fits), new DataQuality(fits, []).Cores()]);

    /// <summary>The fit of a deck: its table, another method beside it, its cores, priors and flags.</summary>
    /// <param name="fit">The fit.</param>
    public static IReportPart Of(DeckFit fit)
    {
        ArgumentNullException.ThrowIfNull(fit);
        return DeckFitParts.Of(fit);
    }

    /// <summary>A deck: its main inputs, and its surveys in plan.</summary>
    /// <param name="deck">The deck.</param>
    public static IReportPart Of(Deck deck)
    {
        ArgumentNullException.ThrowIfNull(deck);
        return new PartList([
            new Remark(
                $"{deck.Name}: {deck.Cores.Length} cores, {deck.Covers.Length} cover readings, {deck.HalfCells.Length} half-cell nodes, {deck.Soundings.Length} sounded areas."
            ),
            InputTable.Of(deck),
            CoverChart.Draw(deck),
            DeckMapChart.Draw(deck),
        ]);
    }

    /// <summary>A projection: its answer with the cautions, and the damaged area by year.</summary>
    /// <param name="projection">The projection.</param>
    public static IReportPart Of(DeckProjection projection) =>
        new PartList([new AnswerPanel(projection), ConditionChart.Damaged(projection)]);
}
