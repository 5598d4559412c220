using System.Reflection;
using System.Reflection.Emit;
using System.Text.RegularExpressions;

namespace DeckLife.Studies.Mutants;

/// <summary>Lists the mutants that dotnet-stryker built into an assembly, by reading the code that asks its switch.</summary>
internal static partial class MutantScan
{
    private const BindingFlags All =
        BindingFlags.DeclaredOnly
        | BindingFlags.Static
        | BindingFlags.Instance
        | BindingFlags.Public
        | BindingFlags.NonPublic;

    /// <summary>Number, namespace, kind (code, word, message; start for what runs once, before any test) and member of each.</summary>
    public static IEnumerable<string> Of(Assembly assembly)
    {
        var types = assembly.GetTypes();
        var asks = types
            .Single(t => t.Name == "MutantControl")
            .GetMethod("IsActive")!
            .MetadataToken;
        return from type in types
            from method in type.GetMembers(All).OfType<MethodBase>()
            let code = method.GetMethodBody()?.GetILAsByteArray() ?? []
            from at in Enumerable.Range(0, Math.Max(0, code.Length - 5))
            where code[at] == OpCodes.Call.Value && BitConverter.ToInt32(code, at + 1) == asks
            let number = Number(code, at)
            orderby number
            select $"{number} {type.Namespace} {(method.Name == ".cctor" ? "start" : Kind(code, at + 5, method.Module))} {type.FullName}.{method.Name.Replace(' ', '_')}";
    }

    // The number is loaded right before the call, in the shortest form that holds it.
    private static int Number(byte[] code, int call) =>
        call >= 5 && code[call - 5] == OpCodes.Ldc_I4.Value ? BitConverter.ToInt32(code, call - 4)
        : call >= 2 && code[call - 2] == OpCodes.Ldc_I4_S.Value ? (sbyte)code[call - 1]
        : code[call - 1] - OpCodes.Ldc_I4_0.Value;

    // A text that is emptied: brtrue to ldstr "" (or to a text where it was empty); a sentence is a message, one word is a name.
    private static string Kind(byte[] code, int branch, Module module)
    {
        var isShort = code[branch] == OpCodes.Brtrue_S.Value;
        if (!isShort && code[branch] != OpCodes.Brtrue.Value)
        {
            return "code";
        }

        var next = branch + (isShort ? 2 : 5);
        var target =
            next + (isShort ? (sbyte)code[branch + 1] : BitConverter.ToInt32(code, branch + 1));
        if (Text(code, target, module) is not ("" or "Stryker was here!"))
        {
            return "code";
        }

        return Text(code, next, module) is { } text && !Sentence().IsMatch(text)
            ? "word"
            : "message";
    }

    private static string? Text(byte[] code, int at, Module module) =>
        at >= 0 && at + 5 <= code.Length && code[at] == OpCodes.Ldstr.Value
            ? module.ResolveString(BitConverter.ToInt32(code, at + 1))
            : null;

    [GeneratedRegex(@"\p{L}.* |^[ .:;,'(]+$")]
    private static partial Regex Sentence();
}
