using System.Text;
using DeckLife.Studies;

namespace DeckLife.Data.Studies;

/// <summary>A study read from its file and run in this process: what a notebook calls.</summary>
/// <param name="Result">The results.</param>
/// <param name="Provenance">Where they come from.</param>
public sealed record StudySession(StudyResult Result, StudyProvenance Provenance)
{
    /// <summary>Reads and runs a study.</summary>
    /// <param name="path">The study file.</param>
    /// <exception cref="InvalidDataException">The file can't be used; every problem is named.</exception>
    public static StudySession Run(string path)
    {
        var bytes = WholeFile.Read(path).ToArray();
        var reading = StudyFileReader.Read(
            Encoding.UTF8.GetString(bytes).TrimStart('\uFEFF'),
            Path.GetDirectoryName(Path.GetFullPath(path))
        );
        if (reading.Study is not { } study)
        {
            throw new InvalidDataException(
                string.Join("\n", reading.Problems.Select(p => $"{p.Code}: {p.Text}"))
            );
        }

        var runner = new StudyRunner(study);
        var pieces = new StudyAccumulator(study);
        runner.Run(runner.Pieces, pieces);
        return new(runner.Finish(pieces), StudyProvenance.Of(study, path, bytes));
    }
}
