using BenchmarkDotNet.Running;
using DeckLife.Benchmarks;
using DeckLife.Numerics.Vectors;

switch (args)
{
    case ["peers", var folder]:
        PeersMode.Run(folder);
        return 0;
    case ["spin", var what, var runs]:
        return SpinMode.Run(
            what,
            int.Parse(runs, System.Globalization.CultureInfo.InvariantCulture)
        );
    case ["memory"]:
        MemoryFigures.Print();
        return 0;
    case ["width"]:
        Console.WriteLine(VectorWidth.Description);
        return 0;
    // What a process sees of its surroundings, to show that a setting took effect.
    case ["surroundings"]:
        Console.WriteLine(
            $"{VectorWidth.Description}, {Environment.ProcessorCount} processors, {System.Globalization.CultureInfo.CurrentCulture.Name}, {TimeZoneInfo.Local.Id}"
        );
        return 0;
    default:
        BenchmarkSwitcher.FromAssembly(typeof(KernelBenchmarks).Assembly).Run(args);
        return 0;
}
