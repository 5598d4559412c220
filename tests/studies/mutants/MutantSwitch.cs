using System.Reflection;

namespace DeckLife.Studies.Mutants;

/// <summary>The switch that dotnet-stryker builds into an assembly: which mutant is active, and which the code passed.</summary>
internal sealed class MutantSwitch
{
    public const int None = -1;

    private readonly FieldInfo active;
    private readonly FieldInfo capture;
    private readonly MethodInfo passed;

    public MutantSwitch(Assembly assembly)
    {
        var control = assembly.GetTypes().Single(t => t.Name == "MutantControl");
        active = control.GetField("ActiveMutant")!;
        capture = control.GetField("CaptureCoverage")!;
        passed = control.GetMethod("GetCoverageData")!;
        Active = None;
    }

    public int Active
    {
        set => active.SetValue(null, value);
    }

    public bool Captures
    {
        set => capture.SetValue(null, value);
    }

    /// <summary>The mutants that were passed since the last call.</summary>
    public int[] Passed() =>
        [.. ((IList<int>[])passed.Invoke(null, null)!).SelectMany(p => p).Distinct()];
}
