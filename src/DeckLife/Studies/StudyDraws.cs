using DeckLife.Numerics.Distributions;
using DeckLife.Numerics.Sampling;

namespace DeckLife.Studies;

/// <summary>The plain draws of a study, any part of which can be made again from the seed.</summary>
public sealed class StudyDraws
{
    private static readonly ulong Purpose = RandomStream.PurposeKey("plain draws of a study");

    private readonly RandomVector _variables;
    private readonly IStudyModel _model;
    private readonly SectionScores? _scores;
    private readonly ulong _seed;

    /// <summary>Prepares the draws of a study.</summary>
    /// <param name="study">The study.</param>
    public StudyDraws(StudyDefinition study)
    {
        ArgumentNullException.ThrowIfNull(study);
        _variables = study.ToRandomVector();
        _model = study.ToModel();
        _scores = (_model as SectionModel)?.FromScores(_variables);
        SliceSize = Math.Min(RandomVector.DrawnAtOnce, study.DrawsAPiece);
        _seed = study.Seed;
    }

    /// <summary>Draws of a slice: random numbers of its own for each quantity.</summary>
    public int SliceSize { get; }

    /// <summary>Number of drawn quantities.</summary>
    public int Inputs => _variables.Dimensions;

    /// <summary>Number of outputs.</summary>
    public int Outputs => _model.Outputs;

    /// <summary>Draws one slice and computes its outputs.</summary>
    /// <param name="slice">Number of the slice, from 0: draws from slice · <see cref="SliceSize"/> on.</param>
    /// <param name="count">Number of draws, at most a slice.</param>
    /// <param name="inputs">Receives the drawn quantities; one array each.</param>
    /// <param name="outputs">Receives the outputs; one array each.</param>
    public void Fill(long slice, int count, double[][] inputs, double[][] outputs)
    {
        ArgumentNullException.ThrowIfNull(inputs);
        FillOutputs(slice, count, inputs, outputs);
        if (_scores is not null)
        {
            _variables.FromScores(count, inputs);
        }
    }

    /// <summary>The outputs of a slice alone, the same numbers.</summary>
    /// <param name="slice">Number of the slice.</param>
    /// <param name="count">Number of draws.</param>
    /// <param name="room">One array a drawn quantity, to compute in.</param>
    /// <param name="outputs">Receives the outputs.</param>
    internal void FillOutputs(long slice, int count, double[][] room, double[][] outputs)
    {
        if (_scores is null)
        {
            _variables.Draw(_seed, Purpose, (ulong)slice, count, room);
            _model.Evaluate(count, room, outputs);
            return;
        }

        _variables.DrawScores(_seed, Purpose, (ulong)slice, count, room);
        _scores.Evaluate(count, room, outputs);
    }

    /// <summary>Makes arrays for <see cref="Fill"/>.</summary>
    /// <param name="columns">Number of arrays.</param>
    public static double[][] Buffers(int columns) =>
        [.. Enumerable.Range(0, columns).Select(_ => new double[RandomVector.DrawnAtOnce])];
}
