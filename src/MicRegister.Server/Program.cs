using System.CommandLine;
using MicRegister.Server.Commands;

var root = new RootCommand("MicRegister: the register of a fleet of measurement microphones and all that belongs to them.")
{
    DemoCommand.Make(),
    ServeCommand.Make(),
    ImportCommand.Make(),
    ImportsCommand.Make(),
    ExportCommand.Make(),
    CurveCommand.Make(),
    CurveCommand.Digital(),
    ReadinessCommand.Make(),
    ProfilesCommand.Make(),
    ForecastCommand.Make(),
    ResponseCommand.Make(),
    ClassesCommand.Make(),
    ToneCommand.Make(),
    CheckCommand.Make(),
    SessionCommand.Make(),
    AgainCommand.Make(),
    TraceCommand.Make(),
    EventsCommand.Make(),
    SiteCommands.Survey(),
    SiteCommands.Weather(),
    MountsCommand.Make(),
    LabelsCommand.Make(),
    AccountCommand.Make(),
    VerifyCommand.Make(),
    ColumnsCommand.Make(),
};
CommonOptions.ReadNumbers(root);
var parsed = root.Parse(args);
if (parsed.Errors.Count == 0) return await parsed.InvokeAsync(new InvocationConfiguration { EnableDefaultExceptionHandler = false });
foreach (var error in parsed.Errors) Console.Error.WriteLine(error.Message);
Console.Error.WriteLine("--help lists commands and options.");
return CommandExit.BadUse;

/// <summary>Named for tests that host the server.</summary>
public partial class Program;
