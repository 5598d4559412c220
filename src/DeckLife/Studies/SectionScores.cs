using DeckLife.Numerics.Distributions;
using DeckLife.Numerics.Kernels;

namespace DeckLife.Studies;

/// <summary>Whether corrosion has started on a bare section, straight from the scores of its normal and lognormal quantities: no value is written out.</summary>
/// <remarks>The same closed form as <see cref="SectionClosedForm"/>, compared in logarithms. Checked by: SectionScoresTests, against that class.</remarks>
internal sealed class SectionScores
{
    private readonly LimitStateIndicator[] _outputs;
    private readonly int[] _places;

    private SectionScores(LimitStateIndicator[] outputs, int[] places)
    {
        _outputs = outputs;
        _places = places;
    }

    /// <summary>Makes it where a study is of that kind: independent or correlated normal and lognormal quantities, salt-free concrete, one temperature.</summary>
    /// <param name="settings">The section.</param>
    /// <param name="closed">Its closed form.</param>
    /// <param name="outputs">What is asked.</param>
    /// <param name="draws">The fixed quantities and the places of the drawn ones.</param>
    /// <param name="variables">The drawn quantities.</param>
    /// <returns>Absent where the study is of another kind.</returns>
    public static SectionScores? TryMake(
        SectionSettings settings,
        SectionClosedForm closed,
        StudyOutput[] outputs,
        SectionDraws draws,
        RandomVector variables
    )
    {
        bool IsFixedAt(StudyVariable variable, double value) =>
            draws.IsFixed(variable) && draws.At(variable, 0) == value;
        if (
            !variables.IsOfScores
            || outputs.Any(o =>
                o.Kind != StudyOutputKind.InitiatedBy
                || o.AgeYr > settings.OverlayAgeYr
                || !(o.AgeYr > 0)
            )
            || !IsFixedAt(StudyVariable.InitialChloride, 0)
            || !draws.IsFixed(StudyVariable.ConvectionDepth)
            || !SectionClosedForm.IsTemperatureFixed(draws)
        )
        {
            return null;
        }

        var places = new int[5];
        // Mean and standard deviation of a quantity, or of its logarithm.
        (double Mean, double Deviation)? Line(int order, StudyVariable variable, bool isLog)
        {
            if (draws.IsFixed(variable))
            {
                var value = draws.At(variable, 0);
                return (isLog ? Math.Log(value) : value, 0);
            }

            places[order] = draws.Place(variable);
            var margin = variables.Margins[places[order]];
            return (margin is TruncatedDistribution cut ? cut.Whole : margin) switch
            {
                NormalDistribution normal when !isLog => (normal.Mean, normal.StandardDeviation),
                LognormalDistribution lognormal when isLog => (
                    lognormal.LogMean,
                    lognormal.LogStandardDeviation
                ),
                _ => null,
            };
        }

        if (
            Line(0, StudyVariable.Cover, false) is not { } cover
            || Line(1, StudyVariable.DiffusionCoefficient, true) is not { } coefficient
            || (
                settings.Ageing == SectionAgeing.None
                    ? (0, 0)
                    : Line(2, StudyVariable.AgeingExponent, false)
            )
                is not { } ageing
            || Line(3, StudyVariable.SurfaceChloride, true) is not { } surface
            || Line(4, StudyVariable.ChlorideThreshold, true) is not { } threshold
        )
        {
            return null;
        }

        var exponent = StudyVariableInfo.Of(StudyVariable.AgeingExponent);
        var model = new LimitStateModel(
            cover.Mean - draws.At(StudyVariable.ConvectionDepth, 0),
            cover.Deviation,
            coefficient.Mean + Math.Log(closed.FixedFactor(draws)),
            coefficient.Deviation,
            ageing.Mean,
            ageing.Deviation,
            surface.Mean,
            surface.Deviation,
            threshold.Mean,
            threshold.Deviation
        )
        {
            LeastDepthMm = 1e-9,
            LeastAgeing = exponent.Least,
            LargestAgeing = exponent.Largest,
            ReferenceAgeYr = settings.ReferenceAgeYr,
            IsAgeingInstantaneous = settings.Ageing == SectionAgeing.Instantaneous,
        };
        return new([.. outputs.Select(o => new LimitStateIndicator(model, o.AgeYr))], places);
    }

    /// <summary>Computes all outputs of many draws.</summary>
    /// <param name="count">Number of draws.</param>
    /// <param name="scores">The scores of the drawn quantities; one array each.</param>
    /// <param name="outputs">Receives one array an output, 1 or 0.</param>
    public void Evaluate(int count, double[][] scores, double[][] outputs)
    {
        // A fixed quantity has no spread: any scores do.
        ReadOnlySpan<double> Column(int order) => scores[_places[order]].AsSpan(0, count);
        for (var o = 0; o < _outputs.Length; o++)
        {
            _outputs[o]
                .Fill(
                    Column(0),
                    Column(1),
                    Column(2),
                    Column(3),
                    Column(4),
                    outputs[o].AsSpan(0, count)
                );
        }
    }
}
