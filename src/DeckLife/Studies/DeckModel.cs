using DeckLife.Economics;
using DeckLife.Population;
using DeckLife.Projection;
using DeckLife.Rehabilitation;

namespace DeckLife.Studies;

/// <summary>A deck under one strategy, computed for many draws of its hyper-parameters, prices and rate.</summary>
/// <remarks>
/// A quantity that the study does not name stays at the middle of what the deck's folder says, or is that of the projection's draw where the study
/// starts from those. Depths of removal are those planned at that middle, as in a projection. Checked by: DeckStudyTests and SurveyedStateTests,
/// against the projector itself.
/// </remarks>
internal sealed class DeckModel : IStudyModel
{
    private readonly DeckSubject _subject;
    private readonly DeckBasis _basis;
    private readonly StudyOutput[] _outputs;
    private readonly BatchedSectionSolver _solver = new();
    private readonly int[] _column;
    private readonly double?[] _fixed = new double?[StudyVariableInfo.All.Count];

    /// <summary>Makes the model of a study of a deck.</summary>
    public DeckModel(StudyDefinition study)
    {
        _subject = study.Deck!;
        _basis = _subject.Basis;
        _outputs = [.. study.Outputs];
        _column = study.Places();
        foreach (var input in study.Inputs)
        {
            _fixed[(int)input.Variable] = input.Fixed;
        }
    }

    /// <inheritdoc/>
    public int Outputs => _outputs.Length;

    /// <inheritdoc/>
    public void Evaluate(int count, double[][] columns, double[][] outputs)
    {
        for (var i = 0; i < count; i++)
        {
            Evaluate(columns, i, outputs);
        }
    }

    /// <inheritdoc/>
    public void Margin(int output, int count, double[][] columns, double[] margins)
    {
        for (var i = 0; i < count; i++)
        {
            var (_, result) = Follow(columns, i);
            margins[i] = Share(result, _outputs[output]) is { } share
                ? _outputs[output].Level!.Value - share
                : StrategyLives.Margin(_subject.Deck, result, _outputs[output].AgeYr);
        }
    }

    private double? Given(double[][] columns, int row, StudyVariable variable) =>
        _column[(int)variable] is >= 0 and var at ? columns[at][row] : _fixed[(int)variable];

    // The deck under the strategy as one draw has it.
    private (StrategyPlan Plan, StrategyDraw Result) Follow(double[][] columns, int row)
    {
        double? Given(StudyVariable variable) => this.Given(columns, row, variable);
        var deck = _subject.Deck;
        var start = Given(StudyVariable.SurveyedState) is { } place
            ? _basis.States.At(place)
            : _basis.Centre;
        var draw = start with
        {
            Population = Population(start.Population, Given),
            Discrepancy = Given(StudyVariable.ModelDiscrepancy) ?? start.Discrepancy,
        };
        var plan = _basis.Plan;
        if (Given(StudyVariable.OverlayDiffusionFactor) is { } factor)
        {
            draw = draw with { MaterialScores = _basis.Centre.MaterialScores };
            plan = plan with
            {
                Interventions =
                [
                    .. plan.Interventions.Select(p =>
                        p.Material is { } material
                            ? p with
                            {
                                Material = material with
                                {
                                    DiffusionCoefficient = Times(
                                        material.DiffusionCoefficient,
                                        factor
                                    ),
                                },
                            }
                            : p
                    ),
                ],
            };
        }

        if (Given(StudyVariable.CorrosionRateUnderOverlay) is { } rate)
        {
            deck = deck with { CorrosionRateUnderOverlay = rate };
        }

        var result = new DrawProjector(
            deck,
            _basis.Clock,
            _solver,
            ProjectionRun.SolverSteps,
            draw,
            AreaPoints.From(draw.Population, _basis.UnitArea)
        ).Follow(plan);
        return (plan, result);
    }

    private void Evaluate(double[][] columns, int row, double[][] outputs)
    {
        var (plan, result) = Follow(columns, row);
        var life = new StrategyLives(_subject.Deck, [result]).First[0];
        for (var o = 0; o < _outputs.Length; o++)
        {
            if (Share(result, _outputs[o]) is { } share)
            {
                outputs[o][row] = _outputs[o].Level is { } level
                    ? share >= level
                        ? 1
                        : 0
                    : share;
                continue;
            }

            outputs[o][row] = _outputs[o].Kind switch
            {
                StudyOutputKind.YearOfLimit => life <= _outputs[o].AgeYr
                    ? life
                    : double.PositiveInfinity,
                _ => PresentValue(plan, result, life, v => Given(columns, row, v)),
            };
        }
    }

    private DeckPopulation Population(DeckPopulation population, Func<StudyVariable, double?> given)
    {
        var mean = given(StudyVariable.CoverMean);
        var deviation = given(StudyVariable.CoverStandardDeviation);
        if (mean is not null || deviation is not null)
        {
            population = population with { Cover = _basis.Cover.With(mean, deviation) };
        }

        var deck = _subject.Deck;
        if (given(StudyVariable.ThresholdMean) is { } threshold)
        {
            population = population with
            {
                Threshold = PointDistribution.WithinDeck(
                    deck.Threshold.Content with
                    {
                        Mean = threshold,
                    },
                    deck.Threshold.WithinDeckShare,
                    0
                ),
            };
        }

        if (given(StudyVariable.PropagationFactor) is { } factor)
        {
            population = population with
            {
                PropagationYr = PointDistribution.WithinDeck(
                    Times(deck.Propagation.Driver, factor),
                    deck.Propagation.WithinDeckShare,
                    0
                ),
            };
        }

        return population with
        {
            MeanLnSurfaceChloride = given(StudyVariable.SurfaceChlorideMedian) is { } cs
                ? Math.Log(cs)
                : population.MeanLnSurfaceChloride,
            SdLnSurfaceChloride =
                given(StudyVariable.SurfaceChlorideLogDeviation) ?? population.SdLnSurfaceChloride,
            MeanLnDiffusionCoefficient = given(StudyVariable.DiffusionCoefficientMedian) is { } d
                ? Math.Log(d)
                : population.MeanLnDiffusionCoefficient,
            SdLnDiffusionCoefficient =
                given(StudyVariable.DiffusionCoefficientLogDeviation)
                ?? population.SdLnDiffusionCoefficient,
            Correlation = given(StudyVariable.Correlation) ?? population.Correlation,
            BackgroundKgPerM3 = given(StudyVariable.Background) ?? population.BackgroundKgPerM3,
        };
    }

    // The share of the area that an output is about; absent: it is about no share.
    private static double? Share(StrategyDraw result, StudyOutput output) =>
        !output.IsShare
            ? null
            : StrategyLives.At(
                result.Grid,
                output.Kind == StudyOutputKind.DamagedShare ? result.Damaged : result.Initiated,
                output.AgeYr
            );

    private double PresentValue(
        StrategyPlan plan,
        StrategyDraw result,
        double lifeYr,
        Func<StudyVariable, double?> given
    )
    {
        var deck = _subject.Deck;
        var others = given(StudyVariable.PriceFactor) ?? 1;
        var renewal = given(StudyVariable.RenewalPriceFactor) ?? 1;
        var prices = deck.Prices!;
        var listed = PriceDraw.AsListed(prices);
        var price = listed with
        {
            ItemFactors =
            [
                .. prices.Items.Select(
                    (p, i) =>
                        listed.ItemFactors[i]
                        * (p.Basis == PriceBasis.RenewedArea ? renewal : others)
                ),
            ],
            ActionFactors = [.. listed.ActionFactors.Select(f => f * renewal)],
        };
        return CashFlow.PresentValue(
            StrategyCosts.PaymentsOf(deck, prices, plan, result, lifeYr, price).All,
            new DiscountRate(given(StudyVariable.DiscountRate) ?? deck.DiscountRate)
        );
    }

    private static UncertainValue Times(UncertainValue value, double factor) =>
        value with
        {
            Mean = value.Mean * factor,
        };
}
