namespace MicRegister.Mutants;

/// <summary>A part of the source, with the tests that guard it.</summary>
/// <param name="Name">Name on the command line.</param>
/// <param name="Project">Project that it is compiled in.</param>
/// <param name="Folder">Folder under src that changes are made in.</param>
/// <param name="Tests">Test projects, the closest first.</param>
/// <param name="Classes">Parts of names of the test classes that are run; none are all.</param>
internal sealed record Area(string Name, string Project, string Folder, IReadOnlyList<string> Tests, IReadOnlyList<string> Classes)
{
    public static IReadOnlyList<Area> All { get; } =
    [
        new("metrology", "MicRegister.Metrology", "MicRegister.Metrology",
            ["MicRegister.Metrology.Tests", "MicRegister.Documents.Tests", "MicRegister.Register.Tests"],
            [".Metrology.Tests.", "Planted", ".RecordingTests", ".DriftBookTests"]),
        new("readiness", "MicRegister.Register", "MicRegister.Register/Readiness", ["MicRegister.Register.Tests"], []),
        new("tracing", "MicRegister.Register", "MicRegister.Register/Tracing", ["MicRegister.Register.Tests"], []),
        new("accounts", "MicRegister.Server", "MicRegister.Server/Accounts", ["MicRegister.Server.Tests"],
            [".Accounts.", "Planted", "FieldApiTests", ".ApiTests", "EventsApiTests"]),
    ];

    public static Area? Find(string name) => All.FirstOrDefault(a => a.Name == name);
}
