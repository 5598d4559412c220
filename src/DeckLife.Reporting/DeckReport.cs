using DeckLife.Decisions;
using DeckLife.Projection;
using DeckLife.Reporting.Charts;
using DeckLife.Reporting.Sections;
using DeckLife.Reporting.Tables;

namespace DeckLife.Reporting;

/// <summary>The parts of a deck's report, each of which shows itself in a notebook cell, on a page or on a terminal.</summary>
/// <param name="projection">The projection that the report shows.</param>
/// <param name="map">Removal depth against overlay thickness; absent: the report does not tell how deep is best.</param>
/// <param name="decision">How firm the decision is; absent: the report does not tell what knowing more would be worth.</param>
public sealed class DeckReport(
    DeckProjection projection,
    DepthMap? map = null,
    DecisionAnalysis? decision = null
)
{
    /// <summary>The first screen: the answer and the cautions.</summary>
    public IReportPart Answer() => new AnswerPanel(projection, map, decision, isInReport: true);

    /// <summary>The strategies side by side.</summary>
    public ReportTable Strategies() => StrategyTable.Of(projection);

    /// <summary>Damaged area against year.</summary>
    public ReportChart DamagedArea() =>
        ConditionChart.Damaged(projection) with
        {
            Basis = SourceAnchor.Condition,
        };

    /// <summary>Damaged or patched area, and initiated area, against year.</summary>
    public IReportPart OtherConditions() =>
        new PartList(
            [
                ConditionChart.DamagedOrPatched(projection) with
                {
                    Basis = SourceAnchor.Condition,
                },
                ConditionChart.Initiated(projection) with
                {
                    Basis = SourceAnchor.Condition,
                },
            ],
            sideBySide: true
        );

    /// <summary>Years until the limit.</summary>
    public ReportChart ServiceLife() =>
        ServiceLifeChart.Draw(projection) with
        {
            Basis = SourceAnchor.ServiceLife,
        };

    /// <summary>Present values; a sentence where there are no prices.</summary>
    public IReportPart Cost() =>
        CostChart.Draw(projection) is { } chart
            ? chart with
            {
                Basis = SourceAnchor.PresentValue,
            }
            : new Remark("The deck folder gives no prices, so no cost is compared.");

    /// <summary>What each intervention takes off, strikes, repairs and adds.</summary>
    public IReportPart Work() =>
        WorkTable.Of(projection) is { } table
            ? table with
            {
                LinksNumbers = true,
            }
            : new Remark("No strategy takes concrete off or places any.");

    /// <summary>Years, cost and grade over removal depth and overlay thickness, and the best under the limits; a sentence where there is no map.</summary>
    public IReportPart DepthMap() =>
        map is null
            ? new Remark("Removal depth and overlay thickness were not mapped.")
            : new DepthMapPart(map, isInReport: true);

    /// <summary>What decides the ranking, what knowing more would be worth, what the bands are made of; a sentence where it was not worked out.</summary>
    public IReportPart Decision() =>
        decision is null
            ? new Remark("How firm the decision is was not worked out.")
            : new DecisionPart(decision, isInReport: true);

    /// <summary>Controls over many removals and overlays, computed beforehand; a sentence where no strategy places an overlay.</summary>
    public IReportPart Explorer() =>
        ExplorationPlan.For(projection.Deck) is { } plan
            ? new ExplorerPart(StrategyExploration.Compute(projection.Deck, projection.Fit, plan))
            : new Remark("No strategy places an overlay, so there is nothing to vary.");

    /// <summary>The profiles of all cores.</summary>
    public IReportPart Profiles() => new ProfileGallery(projection.Cores, projection.Deck);

    /// <summary>The estimates of all cores beside the deck's.</summary>
    public IReportPart Estimates() =>
        new PartList(
            [
                EstimatesChart.SurfaceChloride(projection.Cores, projection.Fit) with
                {
                    Basis = SourceAnchor.DeckFit,
                },
                EstimatesChart.DiffusionCoefficient(projection.Cores, projection.Fit) with
                {
                    Basis = SourceAnchor.DeckFit,
                },
            ],
            sideBySide: true
        );

    /// <summary>The cover survey, the deck in plan, what the surveys changed, and where on it corrosion and damage are probable; a sentence where there is none of them.</summary>
    public IReportPart Surveys()
    {
        IReportPart?[] parts =
        [
            SourceLink.To(CoverChart.Draw(projection.Deck), SourceAnchor.Covers),
            SourceLink.To(DeckMapChart.Draw(projection.Deck), SourceAnchor.HalfCells),
            SourceLink.To(LearningChart.Draw(projection), SourceAnchor.Condition),
            SourceLink.To(ProbabilityMapChart.Active(projection), SourceAnchor.Map),
            SourceLink.To(ProbabilityMapChart.DamagedLater(projection), SourceAnchor.Map),
            SourceLink.To(ProbabilityMapChart.ByZone(projection), SourceAnchor.Map),
        ];
        return parts.All(p => p is null)
            ? new Remark("The deck folder holds no survey with positions and no cover readings.")
            : new PartList(parts);
    }

    /// <summary>Each core and survey, what was left out and why.</summary>
    public IReportPart DataQuality() => Sections.DataQuality.Of(projection);

    /// <summary>How each kind of number is made, with links to what it rests on.</summary>
    public ReportTable Results() => ResultTable.Of(projection, map, decision);

    /// <summary>Every input: value, where it is stated, what it rests on. Numbers elsewhere on a report link here.</summary>
    public ReportTable Inputs() => InputTable.Of(projection);

    /// <summary>Everything assumed.</summary>
    public ReportTable Assumptions() => AssumptionTable.Of(projection);

    /// <summary>What the reader should not take from the report.</summary>
    public IReportPart NotTold() => new WhatThisDoesNotTell(projection);

    /// <summary>Version, seed, fingerprints of the files.</summary>
    public ReportTable Provenance() => Sections.Provenance.Of(projection);

    /// <summary>Terms.</summary>
    public IReportPart Glossary { get; } = new Glossary();
}
