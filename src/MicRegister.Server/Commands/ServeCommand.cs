using System.CommandLine;
using MicRegister.Register;
using MicRegister.Storage.LiteDb;

namespace MicRegister.Server.Commands;

/// <summary>Serves a register on this machine.</summary>
internal static class ServeCommand
{
    public static Command Make()
    {
        var (data, today) = (CommonOptions.Data(), CommonOptions.Today());
        var port = new Option<int>("--port") { Description = "Port on this machine; 0 takes any.", DefaultValueFactory = _ => 5480 };
        var command = new Command("serve", "Serve the register's pages and API on this machine alone (there is no sign-in yet).") { data, port, today };
        command.SetAction((parsed, cancel) => CommandExit.Run(async () =>
        {
            DateOnly? fixedDay = parsed.GetValue(today) is { } text ? CommonOptions.Day(text, TimeProvider.System) : null;
            await using var live = new LiveRegister(JournalStore.Open(new DiskFiles(CommonOptions.Folder(parsed.GetValue(data))), TimeProvider.System));
            await Serve(live, fixedDay, parsed.GetValue(port), cancel);
            live.Log.Settle(live.Now, always: true);
            return CommandExit.Good;
        }));
        return command;
    }

    /// <summary>Serves until it is stopped.</summary>
    public static async Task Serve(LiveRegister live, DateOnly? today, int port, CancellationToken cancel)
    {
        if (port is < 0 or > 65535) throw new BadUseException($"--port {port}: allowed is a number from 0 to 65535.");
        await using var app = RegisterServer.Build(live, TimeProvider.System, today, port);
        try
        {
            await app.StartAsync(cancel);
        }
        catch (IOException e) when (e.InnerException is Microsoft.AspNetCore.Connections.AddressInUseException)
        {
            throw new BadUseException($"Port {port} is taken; choose another with --port, or 0 for any.");
        }
        var address = app.Urls.First();
        ((JournalStore)live.Log).Announce(address);
        Console.WriteLine($"The register's pages: {address} (on this machine only; Ctrl+C stops)");
        await app.WaitForShutdownAsync(cancel);
    }
}
