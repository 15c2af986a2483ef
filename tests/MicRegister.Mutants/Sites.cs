using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;

namespace MicRegister.Mutants;

/// <summary>Where an area can be changed so that it still compiles.</summary>
internal sealed class Sites
{
    private static readonly CSharpParseOptions Parse = new(LanguageVersion.Preview);

    private readonly string _tree;
    private readonly CSharpCompilation _compilation;
    private readonly List<Mutant> _candidates;

    public Sites(string tree, Area area)
    {
        _tree = tree;
        var project = Path.Combine(tree, "src", area.Project);
        var bin = Path.Combine(tree, "tests", area.Tests[0], "bin", "Debug", "net10.0");
        var runtime = Path.GetDirectoryName(typeof(object).Assembly.Location)!;
        var web = runtime.Replace("Microsoft.NETCore.App", "Microsoft.AspNetCore.App", StringComparison.Ordinal);
        var references = new[] { runtime, web, bin }.Where(Directory.Exists)
            .SelectMany(d => Directory.GetFiles(d, "*.dll")).Where(IsManaged)
            .Where(f => Path.GetFileNameWithoutExtension(f) != area.Project).DistinctBy(Path.GetFileName)
            .Select(f => MetadataReference.CreateFromFile(f));
        var texts = Directory.GetFiles(project, "*.cs", SearchOption.AllDirectories).Where(IsSource).Order(StringComparer.Ordinal)
            .Select(f => CSharpSyntaxTree.ParseText(File.ReadAllText(f), Parse, f));
        var options = new CSharpCompilationOptions(
            OutputKind.DynamicallyLinkedLibrary, nullableContextOptions: NullableContextOptions.Enable);
        _compilation = CSharpCompilation.Create(area.Project, texts, references, options);
        var folder = Path.Combine(tree, "src", area.Folder) + "/";
        _candidates = [.. _compilation.SyntaxTrees
            .Where(t => t.FilePath.StartsWith(folder, StringComparison.Ordinal) && IsChangeable(t.FilePath))
            .SelectMany(t => new Changes(t, _compilation.GetSemanticModel(t)).All())];
    }

    /// <summary>Number of changes that can be thought of, whether they compile or not.</summary>
    public int Candidates => _candidates.Count;

    /// <summary>Changes by lot, the planted ones first; with a list of wanted ones, those.</summary>
    public List<Mutant> Choose(int seed, int count, HashSet<string>? wanted)
    {
        var order = _candidates.Where(m => !Planted.IsIn(m.File)).ToArray();
        new Random(seed).Shuffle(order);
        var chosen = _candidates.Where(m => Planted.IsIn(m.File)).ToList();
        var most = chosen.Count + (wanted is null ? count : int.MaxValue - chosen.Count);
        foreach (var mutant in order)
        {
            if (chosen.Count >= most) break;
            if (wanted is null ? Compiles(mutant) : wanted.Contains(mutant.In(_tree))) chosen.Add(mutant);
        }
        return [.. chosen.Select((m, i) => m with { Number = i + 1 })];
    }

    private bool Compiles(Mutant mutant)
    {
        var before = _compilation.SyntaxTrees.First(t => t.FilePath == mutant.File);
        var after = CSharpSyntaxTree.ParseText(Weaver.Woven(before.ToString(), [mutant]), Parse, before.FilePath);
        var changed = _compilation.ReplaceSyntaxTree(before, after);
        // A constant may be needed as one in another file.
        if (mutant.Constant is null) return Errors(changed, after) == Errors(_compilation, before);
        return changed.SyntaxTrees.Zip(_compilation.SyntaxTrees).All(p => Errors(changed, p.First) == Errors(_compilation, p.Second));
    }

    // Parts of pages are made by a generator that does not run here: what they leave open is open before and after.
    private static int Errors(CSharpCompilation compilation, SyntaxTree tree) =>
        compilation.GetSemanticModel(tree).GetDiagnostics().Count(d => d.Severity == DiagnosticSeverity.Error);

    private static bool IsMade(string file) =>
        file.Contains("/obj/", StringComparison.Ordinal) || file.Contains("/bin/", StringComparison.Ordinal);

    private static bool IsSource(string file) => !IsMade(file) || file.EndsWith(".GlobalUsings.g.cs", StringComparison.Ordinal);

    private static bool IsChangeable(string file) => !IsMade(file) && Path.GetFileName(file) != Tree.SwitchFile;

    private static bool IsManaged(string file)
    {
        using var content = File.OpenRead(file);
        using var reader = new System.Reflection.PortableExecutable.PEReader(content);
        try
        {
            return reader.HasMetadata;
        }
        catch (BadImageFormatException)
        {
            return false;
        }
    }
}
