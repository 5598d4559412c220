using DeckLife.Numerics.Distributions;

namespace DeckLife.Studies;

/// <summary>The section of a study, computed for many draws at once.</summary>
/// <remarks>
/// Equation: content at the bar C0 + (Cs - C0) erfc((x - Δx)/(2√s)), s(t) = k D a(t) with k = exp(b(1/Tref - 1/T)) and a(t) = t, tref^m t^(1-m)/(1-m)
/// (instantaneous law) or tref^m t^(1-m) (apparent law). With an overlay the layered problem is solved from its placing on, starting from
/// what is left of the old profile; initiation is the first crossing, so a bar that has started stays started.
/// Source: Crank; fib Bulletin 34 (2006) for Δx, k and the apparent law. Checked by: SectionModelTests, study/* of the reference checks.
/// </remarks>
public sealed class SectionModel : IStudyModel
{
    private readonly SectionSettings _settings;
    private readonly SectionClosedForm _closed;
    private readonly SectionLayered _layered;
    private readonly StudyOutput[] _outputs;
    private readonly int[] _column;
    private readonly double[] _fixed = new double[StudyVariableInfo.All.Count];

    /// <summary>Makes the model of a study.</summary>
    /// <param name="study">The study.</param>
    public SectionModel(StudyDefinition study)
    {
        ArgumentNullException.ThrowIfNull(study);
        _settings = study.Section;
        _closed = new(study.Section);
        _layered = new(study.Section, _closed);
        _outputs = [.. study.Outputs];
        _column = study.Places();
        _fixed[(int)StudyVariable.Temperature] = study.Section.ReferenceTemperatureC;
        foreach (var input in study.Inputs)
        {
            _fixed[(int)input.Variable] = input.Fixed;
        }
    }

    /// <summary>Number of outputs.</summary>
    public int Outputs => _outputs.Length;

    /// <summary>Computes all outputs of many draws.</summary>
    /// <param name="count">Number of draws.</param>
    /// <param name="columns">The drawn quantities in the study's order, canonical units; one array each.</param>
    /// <param name="outputs">Receives one array an output; a time not within its horizon is positive infinity.</param>
    public void Evaluate(int count, double[][] columns, double[][] outputs)
    {
        ArgumentNullException.ThrowIfNull(columns);
        ArgumentNullException.ThrowIfNull(outputs);
        var draws = new SectionDraws(count, columns, _column, _fixed);
        var later = new List<int>();
        for (var o = 0; o < _outputs.Length; o++)
        {
            var result = outputs[o].AsSpan(0, count);
            var age = _outputs[o].AgeYr;
            if (age > _settings.OverlayAgeYr)
            {
                later.Add(o);
                continue;
            }

            switch (_outputs[o].Kind)
            {
                case StudyOutputKind.ContentAtBar:
                    _closed.Content(draws, age, result);
                    break;
                case StudyOutputKind.TimeToInitiation:
                    _closed.Time(draws, age, result);
                    break;
                default:
                    _closed.IsInitiated(draws, age, result);
                    break;
            }
        }

        if (later.Count > 0)
        {
            _layered.Evaluate(
                draws,
                _settings.OverlayAgeYr!.Value,
                [.. later.Select(o => _outputs[o])],
                [.. later.Select(o => outputs[o])]
            );
        }
    }

    /// <summary>The same from scores, where all that is asked is whether corrosion has started on a bare section; absent where it is not.</summary>
    /// <param name="variables">The drawn quantities, in the study's order.</param>
    internal SectionScores? FromScores(RandomVector variables) =>
        SectionScores.TryMake(_settings, _closed, _outputs, new(1, [], _column, _fixed), variables);

    /// <summary>The margin of an output of kind InitiatedBy: threshold less the largest content at the bar so far [kg/m³]; initiated at 0 and below.</summary>
    /// <param name="output">Number of the output.</param>
    /// <param name="count">Number of draws.</param>
    /// <param name="columns">The drawn quantities.</param>
    /// <param name="margins">Receives the margins.</param>
    public void Margin(int output, int count, double[][] columns, double[] margins)
    {
        var draws = new SectionDraws(count, columns, _column, _fixed);
        var age = _outputs[output].AgeYr;
        if (_settings.OverlayAgeYr is { } placed && age > placed)
        {
            _layered.Largest(draws, placed, age, margins);
        }
        else
        {
            _closed.Content(draws, age, margins.AsSpan(0, count));
        }

        for (var i = 0; i < count; i++)
        {
            margins[i] = draws.At(StudyVariable.ChlorideThreshold, i) - margins[i];
        }
    }
}
