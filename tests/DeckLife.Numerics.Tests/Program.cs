using System.Globalization;
using DeckLife.Numerics.Kernels;
using DeckLife.Numerics.Tests.Kernels;
using DeckLife.Numerics.Vectors;

// Run as a process: prints the width in use and contents computed with it, for VectorKnobTests. The tests themselves are run by the host.
if (args is ["width"])
{
    Console.WriteLine(VectorWidth.InUse);
    var found = new BatchedOverlaySolver(new SectionSolverOptions { Threads = 1 }).Solve(
        RandomSections.Draw("under an overlay", 40, 21),
        [1, 10, 60]
    );
    Console.WriteLine(
        string.Join(' ', found.Content.Select(c => c.ToString("R", CultureInfo.InvariantCulture)))
    );
}
