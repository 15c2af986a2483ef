using System.CommandLine;
using MicRegister.Server.Remote;
using MicRegister.Server.Setup;

namespace MicRegister.Server.Commands;

/// <summary>Options of commands that work through a running server instead of opening the folder themselves.</summary>
internal sealed class ServerChoice
{
    private readonly Option<string?> _server = new("--server")
    { Description = "Address of a running server to work through, for example https://register.lan:5443, instead of --data." };

    private readonly Option<string?> _token = new("--token-file")
    {
        Description = "With --server: file with a script token made under My account (otherwise MICREGISTER_TOKEN); "
            + "its person answers instead of --by.",
    };

    private readonly Option<bool> _plain = new("--allow-plain")
    { Description = "With --server: let the token and the files leave this machine by plain HTTP, where others can read them." };

    private readonly Option<string?> _authority = new("--authority")
    { Description = "With --server: PEM file of the authority that its certificate is from (otherwise those that this machine trusts)." };

    /// <summary>Adds them to a command.</summary>
    public void AddTo(Command command)
    {
        foreach (Option option in new Option[] { _server, _token, _plain, _authority }) command.Options.Add(option);
    }

    /// <summary>The server that is asked for; null where the folder is worked with.</summary>
    /// <exception cref="BadUseException">Options do not go together.</exception>
    public ServerAddress? Read(ParseResult parsed, Option<string?> data, Option<string> by)
    {
        if (parsed.GetValue(_server) is not { } address)
        {
            foreach (Option option in new Option[] { _token, _plain, _authority })
            {
                if (IsGiven(parsed, option)) throw new BadUseException($"{option.Name} goes with --server.");
            }
            return null;
        }
        if (IsGiven(parsed, data)) throw new BadUseException("Give --server or --data, not both.");
        var to = ServerAddress.Read(
            address, parsed.GetValue(_token), parsed.GetValue(_plain), parsed.GetValue(_authority), parsed.GetValue(by)!);
        if (to.Token is not null && IsGiven(parsed, by))
            throw new BadUseException("--by does not go with a token: the person whose token it is answers.");
        return to;
    }

    private static bool IsGiven(ParseResult parsed, Option option) => parsed.GetResult(option) is { Implicit: false };
}
