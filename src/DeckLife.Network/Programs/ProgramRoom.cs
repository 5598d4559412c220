namespace DeckLife.Network.Programs;

/// <summary>What is left of the budgets and closures while a program is put together.</summary>
internal sealed class ProgramRoom
{
    private readonly ProgramProblem problem;
    private readonly long[] money;
    private readonly int[] closures;
    private readonly Dictionary<(int Corridor, int Year), int> corridors = [];

    /// <summary>Begins with everything left.</summary>
    public ProgramRoom(ProgramProblem problem)
    {
        this.problem = problem;
        money = [.. problem.Budgets];
        closures = new int[money.Length];
    }

    /// <summary>Takes an option if there is room for it in every year.</summary>
    public bool TryTake(int deck, ProgramOption option)
    {
        var corridor = problem.Decks[deck].Corridor;
        for (var y = 0; y < money.Length; y++)
        {
            if (option.CostByYear[y] > 0 && !HasRoom(corridor, y, option.CostByYear[y]))
            {
                return false;
            }
        }

        for (var y = 0; y < money.Length; y++)
        {
            if (option.CostByYear[y] > 0)
            {
                money[y] -= option.CostByYear[y];
                closures[y]++;
                corridors[(corridor, y)] = corridors.GetValueOrDefault((corridor, y)) + 1;
            }
        }

        return true;
    }

    private bool HasRoom(int corridor, int year, long cost) =>
        cost <= money[year]
        && !(closures[year] >= problem.MostClosuresAYear)
        && (
            corridor < 0
            || !(corridors.GetValueOrDefault((corridor, year)) >= problem.MostClosuresACorridor)
        );
}
