import { render, Text } from "ink";

render(<Text>good morning</Text>);
