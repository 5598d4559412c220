using DeckLife.Projection;
using DeckLife.Reporting.Charts;
using DeckLife.Reporting.Sections;
using DeckLife.Reporting.Tables;

namespace DeckLife.Reporting;

/// <summary>The parts of a deck's report, each of which shows itself in a notebook cell, on a page or on a terminal.</summary>
/// <param name="projection">The projection that the report shows.</param>
public sealed class DeckReport(DeckProjection projection)
{
    /// <summary>The first screen: the answer and the cautions.</summary>
    public IReportPart Answer() => new AnswerPanel(projection);

    /// <summary>The strategies side by side.</summary>
    public ReportTable Strategies() => StrategyTable.Of(projection);

    /// <summary>Damaged area against year.</summary>
    public ReportChart DamagedArea() => ConditionChart.Damaged(projection);

    /// <summary>Damaged or patched area, and initiated area, against year.</summary>
    public IReportPart OtherConditions() =>
        new PartList(
            [ConditionChart.DamagedOrPatched(projection), ConditionChart.Initiated(projection)],
            sideBySide: true
        );

    /// <summary>Years until the limit.</summary>
    public ReportChart ServiceLife() => ServiceLifeChart.Draw(projection);

    /// <summary>Present values; a sentence where there are no prices.</summary>
    public IReportPart Cost() =>
        CostChart.Draw(projection)
        ?? (IReportPart)new Remark("The deck folder gives no prices, so no cost is compared.");

    /// <summary>What each intervention takes off, strikes, repairs and adds.</summary>
    public IReportPart Work() =>
        WorkTable.Of(projection)
        ?? (IReportPart)new Remark("No strategy takes concrete off or places any.");

    /// <summary>Controls over many removals and overlays, computed beforehand; a sentence where no strategy places an overlay.</summary>
    public IReportPart Explorer() =>
        ExplorationPlan.For(projection.Deck) is { } plan
            ? new ExplorerPart(StrategyExploration.Compute(projection.Deck, projection.Fit, plan))
            : new Remark("No strategy places an overlay, so there is nothing to vary.");

    /// <summary>The profiles of all cores.</summary>
    public IReportPart Profiles() => new ProfileGallery(projection.Cores);

    /// <summary>The estimates of all cores beside the deck's.</summary>
    public IReportPart Estimates() =>
        new PartList(
            [
                EstimatesChart.SurfaceChloride(projection.Cores, projection.Fit),
                EstimatesChart.DiffusionCoefficient(projection.Cores, projection.Fit),
            ],
            sideBySide: true
        );

    /// <summary>The cover survey, the deck in plan, and where on it corrosion and damage are probable; a sentence where there is none of them.</summary>
    public IReportPart Surveys()
    {
        IReportPart?[] parts =
        [
            CoverChart.Draw(projection.Deck),
            DeckMapChart.Draw(projection.Deck),
            ProbabilityMapChart.Active(projection),
            ProbabilityMapChart.DamagedLater(projection),
            ProbabilityMapChart.ByZone(projection),
        ];
        return parts.All(p => p is null)
            ? new Remark("The deck folder holds no survey with positions and no cover readings.")
            : new PartList(parts);
    }

    /// <summary>Each core and survey, what was left out and why.</summary>
    public IReportPart DataQuality() => Sections.DataQuality.Of(projection);

    /// <summary>Main inputs with their spreads and sources.</summary>
    public ReportTable Inputs() => InputTable.Of(projection.Deck);

    /// <summary>Everything assumed.</summary>
    public ReportTable Assumptions() => AssumptionTable.Of(projection);

    /// <summary>What the reader should not take from the report.</summary>
    public IReportPart NotTold() => new WhatThisDoesNotTell(projection);

    /// <summary>Version, seed, fingerprints of the files.</summary>
    public ReportTable Provenance() => Sections.Provenance.Of(projection);

    /// <summary>Terms.</summary>
    public IReportPart Glossary { get; } = new Glossary();
}
