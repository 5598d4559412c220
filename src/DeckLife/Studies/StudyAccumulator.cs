using DeckLife.Numerics.Sensitivity;

namespace DeckLife.Studies;

/// <summary>Collects the pieces of a study, from this run, an earlier one or other machines; draws are summed up as they come.</summary>
/// <remarks>Safe for several threads. What comes out does not depend on the order in which pieces came in.</remarks>
public sealed class StudyAccumulator
{
    internal const int SumsASubBlock = 7;

    private readonly Lock _gate = new();
    private readonly StudyDefinition _study;
    private readonly Dictionary<StudyPiece, double[]> _pieces = [];
    private readonly QuantileCounts[][] _counts;

    /// <summary>Starts empty.</summary>
    /// <param name="study">The study.</param>
    public StudyAccumulator(StudyDefinition study)
    {
        ArgumentNullException.ThrowIfNull(study);
        _study = study;
        _counts =
        [
            .. study.Methods.Select(m =>
                m is MonteCarloMethod
                    ? study.Outputs.Select(_ => new QuantileCounts()).ToArray()
                    : []
            ),
        ];
    }

    /// <summary>Number of pieces that are here.</summary>
    public int Count
    {
        get
        {
            lock (_gate)
            {
                return _pieces.Count;
            }
        }
    }

    /// <summary>Whether a piece is here.</summary>
    /// <param name="piece">The piece.</param>
    public bool Has(StudyPiece piece)
    {
        lock (_gate)
        {
            return _pieces.ContainsKey(piece);
        }
    }

    /// <summary>Adds a piece; one that is here already is left as it is.</summary>
    /// <param name="piece">The piece.</param>
    /// <param name="payload">Its numbers, as <see cref="StudyRunner"/> makes them.</param>
    public void Add(StudyPiece piece, double[] payload)
    {
        ArgumentNullException.ThrowIfNull(payload);
        lock (_gate)
        {
            if (_pieces.ContainsKey(piece))
            {
                return;
            }

            if (_study.Methods[piece.Method] is not MonteCarloMethod)
            {
                _pieces.Add(piece, payload);
                return;
            }

            // Sums stay apart, so that they are added in the order of the blocks; counts are whole numbers and are added at once.
            var sums = _study.Outputs.Length * _study.SumsAPiece * SumsASubBlock;
            _pieces.Add(piece, payload[..sums]);
            var at = sums;
            foreach (var counts in _counts[piece.Method])
            {
                var bins = (int)payload[at++];
                for (var b = 0; b < bins; b++, at += 2)
                {
                    counts.Add((long)payload[at], (long)payload[at + 1]);
                }
            }
        }
    }

    internal double[] Numbers(StudyPiece piece) => _pieces[piece];

    internal QuantileCounts Counts(int method, int output) => _counts[method][output];
}
